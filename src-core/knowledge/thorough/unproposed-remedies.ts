import { emptyContext } from '../../session/case-machine.ts';
import { caseProblem } from '../../session/case-problem.ts';
import { planOf } from '../../session/reason-about.ts';
import { drawPracticeCase } from '../../training/practice-case.ts';
import { seededRandom } from '../../training/seeded-random.ts';
import { drawWorld } from '../../training/simulated-world.ts';
import { CAUSE_NOT_IN_GUIDE } from '../compile.ts';
import type { Conditions } from '../conditions.ts';
import type { KnowledgeFault } from '../fault.ts';
import { shownBy } from './lone-cause.ts';
import type { ThoroughInput } from './thorough-input.ts';

/** Worlds drawn until the cause brings on a complaint. */
const MOST_DRAWS = 50;

/**
 * Remedies that the program would work through in no simulated case, however many before them had failed.
 *
 * The causes take turns, so that rare ones get their cases too. Each case holds one cause, what it brings on by the
 * guide's own strengths, and an answer to every check of that cause. In every other round circumstances are known as
 * in a practice case; in the rest none are, so that none rules a remedy out. Seeded by the case's number: the same guide and number of cases give the same findings.
 */
export function unproposedRemedies(input: ThoroughInput, cases: number): KnowledgeFault[] {
  const { knowledge, lists } = input;
  const causes = [...knowledge.causes.keys()].filter((id) => id !== CAUSE_NOT_IN_GUIDE);
  const proposed = new Set<string>();
  for (let number = 0; number < cases; number++) {
    const cause = causes[number % causes.length];
    if (cause === undefined) break;
    const isRoundWithConditions = Math.floor(number / causes.length) % 2 === 1;
    const conditions = isRoundWithConditions ? drawPracticeCase(knowledge, number + 1, null).conditions : {};
    for (const remedy of workedThrough(input, cause, conditions, number + 1)) proposed.add(remedy);
  }
  return lists.remedies.flatMap(({ entry, at }) =>
    proposed.has(entry.id)
      ? []
      : [
          {
            code: 'unproposed-remedy',
            ...at('id'),
            message: `"${entry.id}" is proposed in none of ${cases} simulated cases`,
            remedy: 'mend its minutes or its chances if others do the same for less, or remove it',
          },
        ],
  );
}

/** The order of remedies for one simulated case, to the point where calling somebody is cheaper. */
function workedThrough(
  { knowledge }: ThoroughInput,
  cause: string,
  conditions: Conditions,
  seed: number,
): string[] {
  const index = knowledge.causeIndex.get(cause) ?? -1;
  const random = seededRandom(seed);
  const shown = shownBy(knowledge.graph, index);
  const ids = [...knowledge.observations.keys()];
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const levels = drawWorld(knowledge.graph, [index], random).levelsWith(new Set([index]));
    const findings = Object.fromEntries(
      shown.map((observation): [string, string] => {
        const id = ids[observation] ?? '';
        return [id, knowledge.levelsOf(id)[levels[observation] ?? 0] ?? ''];
      }),
    );
    const found = shown.filter((observation) => (levels[observation] ?? 0) > 0).map((one) => ids[one] ?? '');
    const complaints = found
      .filter((id) => knowledge.observations.get(id)?.complaint)
      .map((id) => ({ observation: id, value: findings[id] ?? '' }));
    if (complaints.length === 0) continue;
    const intake = {
      printerId: null,
      spoolId: null,
      openedBy: null,
      conditions: { ...conditions },
      complaints,
      words: '',
    };
    const problem = caseProblem(knowledge, { ...emptyContext, intake, conditions, findings });
    // Every check of the cause is answered already: without further ones the plan is remedies alone.
    const plan = planOf({ ...problem, checks: [] });
    if (plan.kind !== 'ok') return [];
    return plan.next.actNow.order.map((remedy) => problem.remedies[remedy]?.id ?? '');
  }
  return [];
}
