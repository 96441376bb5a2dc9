import { getContext, setContext } from 'svelte';
import type { PracticeDesk } from './practice-desk.svelte.ts';

const KEY = Symbol('practice desk');

export function setPracticeDesk(desk: PracticeDesk): void {
  setContext(KEY, desk);
}

export function getPracticeDesk(): PracticeDesk {
  return getContext<PracticeDesk>(KEY);
}
