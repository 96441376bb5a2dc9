import type { Conditions } from '../knowledge/conditions.ts';
import { today } from '../knowledge/former-ids.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { shownBeside } from '../knowledge/shown-chance.ts';

/** Something that two guides say differently, in today's ids. Chances are from 0 to 1. */
export type GuideChange =
  | {
      /** How often the cause brings the observation about; null where one guide does not have the observation. */
      readonly kind: 'link';
      readonly cause: string;
      readonly observation: string;
      readonly before: number | null;
      readonly now: number | null;
    }
  /** How often the cause comes under the circumstances of the case. */
  | { readonly kind: 'prior'; readonly cause: string; readonly before: number; readonly now: number }
  | { readonly kind: 'new-cause'; readonly cause: string }
  | { readonly kind: 'cause-gone'; readonly cause: string };

/** Chances closer than this, as a ratio of odds, count as the same. */
const SAME_ODDS = 1.05;

/**
 * What of two guides' differences touches a case: its findings' links with the causes in question, how often these come, and
 * causes that only one has. Largest change first. `causes` and `findings` in either guide's ids.
 */
export function guideChanges(
  before: Knowledge,
  now: Knowledge,
  about: {
    readonly causes: readonly string[];
    readonly findings: readonly string[];
    readonly conditions: Conditions;
  },
): readonly GuideChange[] {
  const found: { readonly change: GuideChange; readonly size: number }[] = [];
  const causes = new Set(about.causes.map((id) => today(now.former.causes, id)));
  const findings = new Set(about.findings.map((id) => today(now.former.observations, id)));
  const priorsThen = before.priorsUnder(about.conditions).priors;
  const priorsNow = now.priorsUnder(about.conditions).priors;
  for (const cause of causes) {
    const was = indexBefore(before.causeIndex, now.former.causes, cause);
    const is = now.causeIndex.get(cause) ?? -1;
    if (was < 0 && is < 0) continue;
    if (was < 0 || is < 0) {
      found.push({ change: { kind: was < 0 ? 'new-cause' : 'cause-gone', cause }, size: Infinity });
      continue;
    }
    const prior = { before: priorsThen[was] ?? 0, now: priorsNow[is] ?? 0 };
    const size = oddsApart(prior.before, prior.now);
    if (size > Math.log(SAME_ODDS)) found.push({ change: { kind: 'prior', cause, ...prior }, size });
    for (const observation of findings) {
      const link = {
        before: shownChance(
          before,
          indexBefore(before.observationIndex, now.former.observations, observation),
          was,
        ),
        now: shownChance(now, now.observationIndex.get(observation) ?? -1, is),
      };
      const apart =
        link.before === null || link.now === null
          ? link.before === link.now
            ? 0
            : Infinity
          : oddsApart(link.before, link.now);
      if (apart > Math.log(SAME_ODDS))
        found.push({ change: { kind: 'link', cause, observation, ...link }, size: apart });
    }
  }
  return found.sort((a, b) => (a.size === b.size ? 0 : b.size - a.size)).map(({ change }) => change);
}

/** Where an id of today stood in an earlier guide: under its own name, or under one that it had. */
function indexBefore(
  index: ReadonlyMap<string, number>,
  former: ReadonlyMap<string, string>,
  id: string,
): number {
  const own = index.get(id);
  if (own !== undefined) return own;
  for (const [old, name] of former) if (name === id && index.has(old)) return index.get(old) ?? -1;
  return -1;
}

/** How often a cause alone brings an observation about, at any level: the table's word, the facets', or links and mechanisms. */
function shownChance({ graph }: Knowledge, observation: number, cause: number): number | null {
  const node = graph.observations[observation];
  if (!node) return null;
  if (node.reach) {
    const levels = node.reach[cause];
    return levels ? 1 - (levels[0] ?? 1) : 0;
  }
  return shownBeside(graph, observation, cause);
}

/** How far apart two chances are, as the size of the change of their log-odds; certainties count as one in ten thousand. */
function oddsApart(a: number, b: number): number {
  const logit = (p: number) => {
    const kept = Math.min(0.9999, Math.max(0.0001, p));
    return Math.log(kept / (1 - kept));
  };
  return Math.abs(logit(a) - logit(b));
}
