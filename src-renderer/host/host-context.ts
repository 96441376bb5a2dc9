import { createContext } from 'svelte';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { GuideBook } from './guide-book.ts';

/** Screens reach the host and the guide through these, never through window. */
export const [getHost, setHost] = createContext<HostApi>();
export const [getGuide, setGuide] = createContext<GuideBook>();
