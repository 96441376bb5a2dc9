import { INITIALS } from '../../../src-core/contract/initials.ts';

/** What was typed to bring several people in at once: "AB, CD EF". */
export interface Newcomers {
  /** Each once, as typed. */
  readonly initials: readonly string[];
  /** What cannot be anybody's initials. */
  readonly faulty: readonly string[];
}

export function newcomersOf(typed: string): Newcomers {
  const words = [...new Set(typed.split(/[\s,;、،]+/u).filter((word) => word !== ''))];
  return {
    initials: words.filter((word) => INITIALS.test(word)),
    faulty: words.filter((word) => !INITIALS.test(word)),
  };
}
