import { describe, expect, it } from 'vitest';
import type { SpoolReport } from '../../src-core/contract/spool-life.ts';
import { lastDriedAt, standingOf } from '../../src-core/moisture/spool-standing.ts';
import type { LoggedSpoolEvent } from '../../src-core/moisture/spool-life.ts';
import { SPOOL_VERDICTS, verdictOn } from '../../src-core/moisture/spool-verdict.ts';
import type { SpoolPlace } from '../../src-core/knowledge/schema.ts';

type Report = Pick<SpoolReport, 'water' | 'drying' | 'foundWet'>;
/** Only what the standing goes by. */
const report = (
  verdict: (typeof SPOOL_VERDICTS)[number] | null,
  canDry: boolean,
  isFoundWet: boolean,
): Report =>
  ({
    water: verdict && { verdict },
    drying: { kind: canDry ? 'dry' : 'cannot' },
    foundWet: isFoundWet ? { caseId: 'c', at: '2026-03-02T12:00:00.000Z' } : null,
  }) as unknown as Report;

describe('whether to print with a spool', () => {
  it.each([
    [null, true, false, 'not-known'],
    ['dry', true, false, 'fit'],
    ['near-limit', true, false, 'near-limit'],
    ['over-limit', true, false, 'dry-first'],
    ['far-over-limit', true, false, 'dry-first'],
    // Too wet, and nothing at hand that dries it.
    ['over-limit', false, false, 'do-not-use'],
    ['far-over-limit', false, true, 'do-not-use'],
    // A case that confirmed it wet counts, whatever is computed or not known.
    ['dry', true, true, 'dry-first'],
    [null, true, true, 'dry-first'],
    ['near-limit', false, true, 'dry-first'],
  ] as const)('%s, dryer good for it: %s, found wet: %s: %s', (verdict, canDry, isFoundWet, standing) =>
    expect(standingOf(report(verdict, canDry, isFoundWet))).toBe(standing),
  );

  it.each([
    [0, 'dry'],
    [0.1499, 'dry'],
    [0.15, 'near-limit'],
    [0.4999, 'near-limit'],
    [0.5, 'over-limit'],
    [0.8499, 'over-limit'],
    [0.85, 'far-over-limit'],
    [1, 'far-over-limit'],
  ])('a chance of %s of being over the limit is "%s"', (chance, verdict) =>
    expect(verdictOn(chance)).toBe(verdict),
  );

  it.each([-0.01, 1.01, NaN])('a chance of %s is none', (chance) =>
    expect(() => verdictOn(chance)).toThrow('from 0 to 1'),
  );
});

describe('when a spool was last dried', () => {
  const place = (id: string, air: SpoolPlace['air']): [string, SpoolPlace] => [
    id,
    { id, label: id, storage: id, air },
  ];
  const places = new Map([
    place('shelf', 'room'),
    place('tub', 'closed'),
    place('oven', 'dryer'),
    place('box', 'dryer'),
  ]);
  const log = (
    ...events: readonly (readonly [string, string] | readonly ['weighed'] | readonly ['undone'])[]
  ) =>
    events.map(
      ([kind, to], k): LoggedSpoolEvent =>
        ({
          seq: k + 1,
          at: `2026-03-0${k + 1}T12:00:00.000Z`,
          event: { kind, ...(to && { place: to }) },
        }) as unknown as LoggedSpoolEvent,
    );
  const on = (day: number) => `2026-03-0${day}T12:00:00.000Z`;

  it.each([
    ['never, where nothing says so', log(['moved', 'shelf'], ['moved', 'tub']), null],
    ['when it came out of the dryer', log(['moved', 'oven'], ['moved', 'tub'], ['moved', 'shelf']), on(2)],
    ['not yet while it is in there', log(['moved', 'shelf'], ['moved', 'oven']), null],
    ['when it went from one dryer to another, too', log(['moved', 'oven'], ['moved', 'box']), on(2)],
    ['when it was weighed dry', log(['moved', 'shelf'], ['weighed'], ['moved', 'tub']), on(2)],
    ['by the last of several', log(['moved', 'oven'], ['moved', 'tub'], ['weighed']), on(3)],
  ])('%s', (_, events, at) => expect(lastDriedAt({ places }, events)).toBe(at));

  it('does not count what was taken back', () => {
    expect(lastDriedAt({ places }, log(['moved', 'oven'], ['moved', 'tub'], ['undone']))).toBeNull();
    expect(lastDriedAt({ places }, log(['weighed'], ['undone']))).toBeNull();
  });
});
