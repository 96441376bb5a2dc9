import type { Knowledge } from '../knowledge/knowledge.ts';
import type { CaseProblem } from './case-problem.ts';
import { speaksFor } from './finding-evidence.ts';

/** Kinds of observation that look at the machine itself, not at what is told of the complaint. */
const DIRECT_KINDS: ReadonlySet<string> = new Set(['sign', 'hand-test', 'measurement']);
/** A cause shows a finding directly from this chance (0-1) on. Our own. */
const LEAST_SHOWN = 0.4;
/** Below these chances (0-1) of accounting for the complaint a found fault is one among others. Our own. */
const LEAST_CHANCE = 0.2;
const LEAST_RIVAL = 0.1;
/** How many times as likely as the next candidate it has to be. Our own. */
const LEAST_LEAD = 2;

type Candidate = { readonly cause: string; readonly probability: number };

/**
 * The fault that was found on the machine, where it is one: the first candidate, shown directly by something seen, felt or
 * measured, clearly ahead, and no rival is shown so too. `ranked` has the candidates, most probable first. Common practice: what is
 * found broken is mended before more is asked about the complaint.
 */
export function foundFault(
  knowledge: Knowledge,
  { evidence, complaints, model }: CaseProblem,
  ranked: readonly Candidate[],
): string | null {
  const direct = evidence.filter((finding) => {
    const observation = knowledge.observations.get(model.observations[finding.observation]?.id ?? '');
    return (
      speaksFor(finding) &&
      observation !== undefined &&
      DIRECT_KINDS.has(observation.kind) &&
      !observation.complaint &&
      !complaints.includes(finding.observation)
    );
  });
  const isShown = ({ cause }: Candidate) =>
    direct.some(({ observation }) => {
      const node = knowledge.graph.observations[observation];
      const index = knowledge.causeIndex.get(cause);
      const own = node?.links.find(({ from }) => from.kind === 'cause' && from.index === index);
      return (
        node?.accountLevels === undefined && own !== undefined && 1 - (own.levels[0] ?? 1) >= LEAST_SHOWN
      );
    });
  const [first, second] = ranked;
  const rivals = ranked.slice(1).filter(({ probability }) => probability >= LEAST_RIVAL);
  if (!first || first.probability < LEAST_CHANCE) return null;
  if (first.probability < LEAST_LEAD * (second?.probability ?? 0)) return null;
  return isShown(first) && !rivals.some(isShown) ? first.cause : null;
}
