import type { PrintedStretch } from './print-hours.ts';

/** What somebody says a printer prints in a usual week, where nobody reads its meter. */
export interface UsualHours {
  readonly printerId: string;
  /** 0 to 168. */
  readonly hoursPerWeek: number;
  /** Since when it is known to be in use, ms since 1970. */
  readonly sinceMs: number;
}

export interface PrintedHours {
  readonly stretches: ReadonlyMap<string, readonly PrintedStretch[]>;
  /** Printers whose stretches are an estimate. */
  readonly estimated: ReadonlySet<string>;
}

const WEEK_MS = 7 * 24 * 3_600_000;

/**
 * What printers printed, with an even estimate up to `nowMs` for those of which no two readings tell anything: what was read always
 * counts before what was said, and of less than a week a usual week tells nothing.
 */
export function withUsualHours(
  read: ReadonlyMap<string, readonly PrintedStretch[]>,
  usual: readonly UsualHours[],
  nowMs: number,
): PrintedHours {
  const told = usual.filter(
    ({ printerId, hoursPerWeek, sinceMs }) =>
      hoursPerWeek > 0 && nowMs - sinceMs >= WEEK_MS && (read.get(printerId) ?? []).length === 0,
  );
  return {
    stretches: new Map([
      ...read,
      ...told.map(({ printerId, hoursPerWeek, sinceMs }): [string, PrintedStretch[]] => [
        printerId,
        [{ fromMs: sinceMs, toMs: nowMs, hours: (hoursPerWeek * (nowMs - sinceMs)) / WEEK_MS }],
      ]),
    ]),
    estimated: new Set(told.map(({ printerId }) => printerId)),
  };
}
