import type { CaseEvent, OtherCase } from '../contract/case-event.ts';
import { FEWEST_ANSWERS, FEWEST_TRIES } from '../contract/guide-use-limits.ts';
import type { GuideUse } from '../contract/guide-use-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Ranking } from '../session/case-step.ts';
import { eventsInForce, type LoggedEvent } from '../session/logged-event.ts';
import { observationLabel, remedyLabel } from '../session/wording.ts';
import { shareLimits } from '../statistics/rate-comparison.ts';

/** A closed case as it was kept: its log, and the first candidates after each entry where they were kept. */
export interface KeptCase {
  readonly name: OtherCase;
  readonly log: readonly LoggedEvent[];
  readonly rankings: ReadonlyMap<number, Ranking>;
}

/** A candidate moved where it is so much likelier or less likely than before. */
const MOVED = 0.05;
/** Upper ends of the bins of what was said. */
const BINS = [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];
const LONGEST_RANKING = 6;
const MINUTE_MS = 60_000;

/**
 * How the guide did: where the cause that was confirmed stood, whether what was said of candidates came true as often as it
 * was said, what it took to a cure, which checks move nothing and which remedies do not cure. Of what was kept; nothing is
 * reasoned again.
 */
export function guideUse(
  knowledge: Knowledge,
  cases: readonly KeptCase[],
): Omit<GuideUse, 'cases' | 'isMore' | 'isDemo'> {
  const told = cases.flatMap(toldOf);
  const ranks = told.flatMap(({ rank }) => (rank === undefined ? [] : [rank]));
  const counts = Map.groupBy(ranks, (rank) => rank);
  return {
    withOdds: ranks.length,
    ranks: [...Array.from({ length: LONGEST_RANKING }, (_, i) => i + 1), null].map((rank) => ({
      rank,
      cases: counts.get(rank)?.length ?? 0,
    })),
    first: ranks.length === 0 ? null : seen(counts.get(1)?.length ?? 0, ranks.length),
    calibration: calibrationOf(told.flatMap(({ said }) => said)),
    cure: cureOf(told.flatMap(({ cureMinutes }) => (cureMinutes === null ? [] : [cureMinutes]))),
    checks: checksOf(knowledge, cases),
    remedies: remediesOf(knowledge, cases),
    namedByHand: namedByHand(cases),
  };
}

interface Told {
  /** Of the confirmed cause at the closing; null below what was kept, undefined where nothing was. */
  readonly rank: number | null | undefined;
  readonly said: readonly { readonly probability: number; readonly isConfirmed: boolean }[];
  readonly cureMinutes: number | null;
}

function toldOf({ log, rankings }: KeptCase): Told[] {
  const inForce = eventsInForce(log);
  const closing = inForce.findLast(({ event }) => event.kind === 'closed');
  if (closing?.event.kind !== 'closed') return [];
  const confirmed = new Set(closing.event.causes.flatMap((one) => ('cause' in one ? [one.cause] : [])));
  // What was thought before the last word was said: the closing itself tells nothing new.
  const ranking = rankings.get(closing.seq - 1) ?? rankings.get(closing.seq);
  const found = ranking?.findIndex(([cause]) => confirmed.has(cause));
  const cured = inForce.findLast(
    ({ seq, event }) => seq < closing.seq && event.kind === 'verified' && event.outcome === 'cured',
  );
  const opened = log[0];
  return [
    {
      // Of causes named by hand alone there is none in the guide that could have stood anywhere.
      rank: found === undefined || confirmed.size === 0 ? undefined : found < 0 ? null : found + 1,
      said:
        confirmed.size === 0
          ? []
          : (ranking ?? []).map(([cause, probability]) => ({
              probability,
              isConfirmed: confirmed.has(cause),
            })),
      cureMinutes:
        cured && opened ? Math.max(0, (Date.parse(cured.at) - Date.parse(opened.at)) / MINUTE_MS) : null,
    },
  ];
}

function calibrationOf(said: Told['said']): GuideUse['calibration'] {
  return BINS.flatMap((to, index) => {
    const from = BINS[index - 1] ?? 0;
    const own = said.filter(
      ({ probability }) => probability >= from && (probability < to || (to === 1 && probability <= 1)),
    );
    if (own.length === 0) return [];
    return [
      {
        from,
        to,
        said: own.reduce((sum, one) => sum + one.probability, 0) / own.length,
        ...seen(own.filter(({ isConfirmed }) => isConfirmed).length, own.length),
      },
    ];
  });
}

function cureOf(minutes: readonly number[]): GuideUse['cure'] {
  if (minutes.length === 0) return null;
  const sorted = minutes.toSorted((a, b) => a - b);
  const at = (share: number) => {
    const place = share * (sorted.length - 1);
    const [below = 0, above = below] = [sorted[Math.floor(place)], sorted[Math.ceil(place)]];
    return below + (above - below) * (place - Math.floor(place));
  };
  return {
    cases: sorted.length,
    medianMinutes: at(0.5),
    lowMinutes: at(0.25),
    highMinutes: at(0.75),
  };
}

interface Look {
  readonly observation: string;
  /** Whether the answer moved the list; null where it could not be told. */
  readonly hasMoved: boolean | null;
}

function checksOf(knowledge: Knowledge, cases: readonly KeptCase[]): GuideUse['checks'] {
  const answers = cases.flatMap(({ log, rankings }) =>
    eventsInForce(log).flatMap(({ seq, event }): Look[] => {
      if (event.kind === 'could-not-tell') return [{ observation: event.observation, hasMoved: null }];
      if (event.kind !== 'answered') return [];
      const [before, after] = [rankings.get(seq - 1), rankings.get(seq)];
      return before && after ? [{ observation: event.observation, hasMoved: hasMoved(before, after) }] : [];
    }),
  );
  return [...Map.groupBy(answers, ({ observation }) => observation)]
    .map(([observation, own]) => {
      const answered = own.filter((one) => one.hasMoved !== null);
      const moved = answered.filter((one) => one.hasMoved).length;
      return {
        observation,
        label: observationLabel(knowledge, observation),
        minutes: knowledge.observations.get(observation)?.check.minutes ?? null,
        answered: answered.length,
        moved,
        notTold: own.length - answered.length,
        neverPays: moved === 0 && answered.length >= FEWEST_ANSWERS,
      };
    })
    .sort(
      (a, b) =>
        Number(b.answered >= FEWEST_ANSWERS) - Number(a.answered >= FEWEST_ANSWERS) ||
        a.moved / Math.max(1, a.answered) - b.moved / Math.max(1, b.answered) ||
        b.answered - a.answered,
    );
}

function hasMoved(before: Ranking, after: Ranking): boolean {
  const [was, is] = [new Map(before), new Map(after)];
  // Of what is in one list only, the other holds no more than its last.
  const leastOf = (ranking: Ranking) => ranking.at(-1)?.[1] ?? 0;
  return [...new Set([...was.keys(), ...is.keys()])].some((cause) => {
    const [old, now] = [was.get(cause) ?? leastOf(before), is.get(cause) ?? leastOf(after)];
    return Math.abs(now - old) >= MOVED;
  });
}

function remediesOf(knowledge: Knowledge, cases: readonly KeptCase[]): GuideUse['remedies'] {
  const tries = cases.flatMap(({ log }) => {
    let chosen: string | null = null;
    return eventsInForce(log).flatMap(({ event }: { readonly event: CaseEvent }) => {
      if (event.kind === 'remedy-chosen') chosen = event.remedy;
      if (event.kind !== 'verified' || chosen === null) return [];
      return [{ remedy: chosen, isCured: event.outcome === 'cured' }];
    });
  });
  return [...Map.groupBy(tries, ({ remedy }) => remedy)]
    .map(([remedy, own]) => {
      const counted = seen(own.filter(({ isCured }) => isCured).length, own.length);
      return {
        remedy,
        label: remedyLabel(knowledge, remedy),
        ...counted,
        neverCures: counted.count === 0 && own.length >= FEWEST_TRIES,
      };
    })
    .sort(
      (a, b) =>
        Number(b.of >= FEWEST_TRIES) - Number(a.of >= FEWEST_TRIES) || a.share - b.share || b.of - a.of,
    );
}

function namedByHand(cases: readonly KeptCase[]): GuideUse['namedByHand'] {
  const named = cases.flatMap(({ name, log }) => {
    const closing = eventsInForce(log).findLast(({ event }) => event.kind === 'closed')?.event;
    if (closing?.kind !== 'closed') return [];
    return closing.causes.flatMap((one) => ('named' in one ? [{ label: one.named, name }] : []));
  });
  return [...Map.groupBy(named, ({ label }) => label.toLowerCase())]
    .map(([, own]) => ({ label: own[0]?.label ?? '', cases: own.map(({ name }) => name) }))
    .sort((a, b) => b.cases.length - a.cases.length);
}

function seen(count: number, of: number) {
  return { count, of, share: count / of, ...shareLimits(count, of) };
}
