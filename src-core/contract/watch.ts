import { z } from 'zod';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** Id that a screen gives to work it wants to look after; its own making. */
export const workIdSchema = z.string().regex(/^[a-z0-9]{8,64}$/, texts.noWorkId);

/** How long work tells how far it is, and is told that nobody waits any more. */
export interface Watch {
  readonly signal: AbortSignal;
  /** Share done, 0 to 1. */
  onProgress(share: number): void;
}

/** For work that nobody looks after. */
export const UNWATCHED: Watch = { signal: new AbortController().signal, onProgress: () => undefined };
