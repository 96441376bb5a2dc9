import type { GraphEvidence } from '../inference/index.ts';
import { knownToFail } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Observation } from '../knowledge/schema.ts';
import type { CaseContext } from './case-context.ts';
import { speaksFor } from './finding-evidence.ts';

type Place = Observation['place'];

/** What was said outright, or by a condition, is there also where it counts for less beside others of its kind. */
function isThereForSure(finding: GraphEvidence, said: string | number | undefined): boolean {
  return finding.kind === 'level'
    ? finding.level > 0
    : finding.likelihood[0] === 0 || said === 'present' || said === undefined;
}

/** Ids of the observations that are there for sure. */
export function foundForSure(
  { graph }: Knowledge,
  { findings }: CaseContext,
  evidence: readonly GraphEvidence[],
): ReadonlySet<string> {
  return new Set(
    evidence.flatMap((finding) => {
      const id = graph.observations[finding.observation]?.id ?? '';
      return isThereForSure(finding, findings[id]) ? [id] : [];
    }),
  );
}

function isAbsentForSure(finding: GraphEvidence): boolean {
  return finding.kind === 'level'
    ? finding.level === 0
    : finding.likelihood.slice(1).every((likelihood) => likelihood === 0);
}

/** Where trouble shows on the printed part itself. */
const ON_THE_PART: ReadonlySet<Place> = new Set([
  'first-layer',
  'walls-and-tops',
  'seams-and-strings',
  'shape-and-size',
  'bonds-and-strength',
]);

/** Whether a statement makes sense of trouble at this place. */
function fitsTrouble(speaksOf: Observation['speaksOf'], place: Place | undefined): boolean {
  if (!speaksOf || !place) return true;
  if (speaksOf === 'printing') return place !== 'part-in-service';
  return ON_THE_PART.has(place) && !(speaksOf === 'walls' && place === 'first-layer');
}

/**
 * Not asked: what is answered, passed over, said by a condition, implied by what was said (`thereForSure` as `foundForSure` gives it),
 * about another kind of trouble, or of what the machine does not have.
 */
export function closedChecks(
  knowledge: Knowledge,
  context: CaseContext,
  evidence: readonly GraphEvidence[],
  complaint: readonly number[],
  thereForSure: ReadonlySet<string>,
): ReadonlySet<string> {
  const said = evidence.flatMap((finding) => {
    const observation = knowledge.observations.get(
      knowledge.graph.observations[finding.observation]?.id ?? '',
    );
    return observation ? [{ finding, observation }] : [];
  });
  const implied = said.flatMap(({ finding, observation: { id, settles, settlesWhenAbsent } }) => {
    if (thereForSure.has(id)) return settles;
    return isAbsentForSure(finding) ? settlesWhenAbsent : [];
  });
  // A case taken up again begins a new round: what was seen in the last one may have come back.
  const triedNow = new Set(context.tried.slice(context.triedBefore).map(({ remedy }) => remedy));
  const there = new Set(
    said.filter(({ finding }) => speaksFor(finding)).map(({ observation }) => observation.id),
  );
  const main = knowledge.observations.get(knowledge.graph.observations[complaint[0] ?? -1]?.id ?? '');
  const outOfPlace = [...knowledge.observations.values()].filter(
    ({ danger, askedWhen, onlyAbout, seenInTrying, speaksOf, complaint: isComplaint, place }) =>
      // Danger signs are asked of before anything else, and never as one check among others.
      danger ||
      (askedWhen && knownToFail(askedWhen, context.conditions)) ||
      (onlyAbout.length > 0 && !onlyAbout.some((id) => there.has(id))) ||
      seenInTrying.some((remedy) => triedNow.has(remedy)) ||
      !fitsTrouble(speaksOf, main?.place) ||
      // Whoever has said what is wrong has looked at the part and would have said this too.
      (isComplaint && main !== undefined && !main.unspecific && ON_THE_PART.has(place)),
  );
  return new Set([
    ...outOfPlace.map(({ id }) => id),
    ...said.map(({ observation }) => observation.id),
    ...implied,
    ...Object.keys(context.findings),
    ...context.notTellable,
    ...context.skipped,
  ]);
}
