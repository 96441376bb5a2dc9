import type { CaseContext } from '../session/case-context.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Scenario } from '../knowledge/schema.ts';
import { trainingTexts } from '../words/en/training.ts';
import type { Message, Words } from '../words/message.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import { levelOfFinding } from '../session/finding-level.ts';
import type { PracticeCase } from './practice-case.ts';
import { seededRandom } from './seeded-random.ts';
import { dangerIndexes } from './no-danger.ts';
import { drawWorld } from './simulated-world.ts';
import { topicsOf } from './topics.ts';

const { m } = trainingTexts;

/** A written case: of the guide, in its words, or one of the shop's own, with what is said of any of them. */
export type WrittenCase = Omit<Scenario, 'title' | 'story'> & {
  readonly title: Words;
  readonly story: Words;
};

/** A remedy takes a written case's cause away from this chance on. */
const WORKS_FROM = 0.5;

/** A written case as it is played: what it does not say is drawn from the network, the same for the same case. */
export function practiceOfScenario(knowledge: Knowledge, scenario: WrittenCase, luck = 0): PracticeCase {
  const indexOf = (id: string) => knowledge.observationIndex.get(id) ?? -1;
  const causes = scenario.causes.map((id) => knowledge.causeIndex.get(id) ?? -1);
  const world = drawWorld(knowledge.graph, causes, seededRandom(seedOf(scenario.id) + luck));
  const levelAt = (id: string, value: string) => Math.max(0, levelOfFinding(knowledge, id, value));
  const complaints = new Map(
    scenario.complaints.map(({ observation, value, from }) => [
      indexOf(observation),
      {
        level: levelAt(observation, value),
        cause: knowledge.causeIndex.get(from ?? scenario.causes[0] ?? '') ?? -1,
      },
    ]),
  );
  const answers = new Map(
    Object.entries(scenario.answers).map(([id, value]) => [indexOf(id), levelAt(id, value)]),
  );
  // A danger sign is there where the writer says so, never by luck.
  const dangers = dangerIndexes(knowledge);
  return {
    conditions: scenario.conditions,
    causes,
    complaints: [...complaints.keys()],
    levelOf: (observation, left) => {
      const complaint = complaints.get(observation);
      if (complaint) return left.has(complaint.cause) ? complaint.level : 0;
      const answer = answers.get(observation);
      if (answer !== undefined) return causes.some((cause) => left.has(cause)) ? answer : 0;
      return dangers.has(observation) ? 0 : (world.levelsWith(left)[observation] ?? 0);
    },
    removes: (remedy, cause) =>
      knowledge.remedies
        .get(remedy)
        ?.removes.some(
          (one) =>
            knowledge.causeIndex.get(one.cause) === cause && strengthProbability(one.chance) >= WORKS_FROM,
        ) ?? false,
    redrawn: (other) => practiceOfScenario(knowledge, scenario, other),
  };
}

/**
 * A closed case of the shop's own as a practice case, or why it cannot be one. It takes conditions, findings and confirmed
 * causes; whatever people wrote, their initials and photos stay behind.
 */
export function scenarioOfCase(
  knowledge: Knowledge,
  caseId: string,
  { intake, conditions, findings, closing }: CaseContext,
): WrittenCase | { readonly fault: Message } {
  if (!intake || !closing) return { fault: m.onlyClosedCases() };
  const causes = closing.causes
    .flatMap((one) => ('cause' in one && knowledge.causes.has(one.cause) ? [one.cause] : []))
    .filter((cause) =>
      [...knowledge.remedies.values()].some(({ removes }) =>
        removes.some((one) => one.cause === cause && strengthProbability(one.chance) >= WORKS_FROM),
      ),
    )
    .slice(0, 2);
  if (causes.length === 0) return { fault: m.causeNotInGuide() };
  const levelId = (id: string, value: string | number) => {
    const level = levelOfFinding(knowledge, id, value);
    return knowledge.levelsOf(id)[level] ?? null;
  };
  const complaints = intake.complaints
    .flatMap(({ observation, value }) => {
      const level = knowledge.observations.has(observation) ? levelId(observation, value) : null;
      return level ? [{ observation, value: level }] : [];
    })
    .slice(0, 3);
  if (complaints.length === 0) return { fault: m.complaintNotInGuide() };
  const told = new Set(complaints.map(({ observation }) => observation));
  const answers = Object.fromEntries(
    Object.entries(findings).flatMap(([id, value]) => {
      const level = !told.has(id) && knowledge.observations.has(id) ? levelId(id, value) : null;
      return level ? [[id, level]] : [];
    }),
  );
  const known = Object.entries(conditions).filter(([id]) => knowledge.conditions.has(id));
  return {
    id: `case-${caseId.toLowerCase()}`,
    title: m.caseOfThisShop(),
    topic: topicsOf(knowledge, causes)[0] ?? '',
    difficulty: 'middling',
    story: m.happenedHere(),
    printer: '',
    spool: '',
    conditions: Object.fromEntries(known),
    causes,
    complaints,
    answers,
  };
}

function seedOf(id: string): number {
  let hash = 0;
  for (const letter of id) hash = (Math.imul(hash, 31) + (letter.codePointAt(0) ?? 0)) >>> 0;
  return hash;
}
