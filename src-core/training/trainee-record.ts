import { trainingTexts } from '../words/en/training.ts';
import { inEnglish } from '../words/in-english.ts';
import type { Words } from '../words/message.ts';
import { DRILL_KINDS, type DrillKind } from '../contract/drill-kinds.ts';
import type { KeptResult, TraineeRecord, TrainingClass } from '../contract/training-results.ts';
import { trainingRunSchema } from '../contract/training-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Lesson } from '../knowledge/schema.ts';
import { causeLabel } from '../session/wording.ts';
import { DRILL_TITLES } from '../words/drill-titles.ts';
import { attemptsIn, drillItem, evidenceIn, isHelped } from './evidence.ts';
import { confidenceScore } from './proper-score.ts';
import { waitingToComeBack } from './repetition.ts';
import { countKnown, skillsFrom, topicThatTeachesMost, type TopicSkill } from './skill.ts';

const { m } = trainingTexts;

export interface TraineeParts {
  readonly personId: string;
  readonly initials: string;
  /** Oldest first. */
  readonly results: readonly KeptResult[];
  readonly unreadable: number;
}

/** Above this chance a topic is taken as had: then harder cases teach more. Our own marks. */
const PROBABLY_HAS = 0.7;
const PROBABLY_HAS_NOT = 0.4;
/** A sitting ends where nothing came for this long. Our own mark: longer than a lunch, shorter than a night. */
const BREAK_MS = 4 * 3_600_000;
const MOST_MISSED = 10;

/** Everything that follows from a trainee's results at this time. */
export function traineeRecord(
  knowledge: Knowledge,
  { personId, initials, results, unreadable }: TraineeParts,
  nowMs: number,
): TraineeRecord {
  const skills = skillsOf(knowledge, results);
  const waiting = waitingToComeBack(results.flatMap(attemptsIn)).map(({ item, dueMs }) => ({
    item,
    label: labelOfItem(knowledge, item),
    dueOn: new Date(dueMs).toISOString(),
    isDue: dueMs <= nowMs,
  }));
  const topicOfSkill = (topic: string) => knowledge.trainingTopics.get(topic);
  return {
    personId,
    initials,
    results: [...results],
    unreadable,
    skills: skills.map(({ topic, known, items }) => ({
      topic,
      label: topicOfSkill(topic)?.label ?? topic,
      aim: topicOfSkill(topic)?.aim ?? '',
      known,
      items,
    })),
    known: countKnown(skills.map(({ known }) => known)),
    comesBack: waiting,
    suggestion: suggest(knowledge, results, skills, waiting.find(({ isDue }) => isDue)?.item ?? null),
    course: [...knowledge.lessons.values()].map((lesson) => progressIn(knowledge, lesson, results)),
    ...statedIn(results),
    signOff: signOffIn(results, nowMs),
  };
}

export function skillsOf(knowledge: Knowledge, results: readonly KeptResult[]): TopicSkill[] {
  return skillsFrom([...knowledge.trainingTopics.keys()], results.flatMap(evidenceIn));
}

/** What to do next: what is due comes first, then where a case is expected to teach most. */
function suggest(
  knowledge: Knowledge,
  results: readonly KeptResult[],
  skills: readonly TopicSkill[],
  due: string | null,
): TraineeRecord['suggestion'] {
  // A number of its own for every result, so that the same record always suggests the same case.
  const seed = 1 + results.length;
  const drill = DRILL_KINDS.find((kind) => due === drillItem(kind));
  if (drill) return { because: m.timeToTryAgain(), next: { kind: 'drill', drill } };
  if (due !== null && knowledge.causes.has(due))
    return {
      because: m.comesBack(),
      next: { kind: 'case', run: trainingRunSchema.parse({ seed, focus: due, actions: [] }) },
    };
  const topic = topicThatTeachesMost(skills);
  if (topic === null) return null;
  const skill = skills.find((one) => one.topic === topic);
  const label = knowledge.trainingTopics.get(topic)?.label ?? topic;
  const solved = doneScenarios(results);
  const scenario = [...knowledge.scenarios.values()].find(
    (one) => one.topic === topic && !solved.has(one.id),
  );
  const because = m.teachesMostNow({ topic: label });
  if (scenario)
    return {
      because,
      next: { kind: 'case', run: trainingRunSchema.parse({ seed, scenario: scenario.id, actions: [] }) },
    };
  const known = skill?.known ?? 0;
  const difficulty = known < PROBABLY_HAS_NOT ? 'easy' : known < PROBABLY_HAS ? 'middling' : 'hard';
  return {
    because,
    next: { kind: 'case', run: trainingRunSchema.parse({ seed, topic, difficulty, actions: [] }) },
  };
}

/** Written cases that were passed: the right cause, and nobody hurt. */
function doneScenarios(results: readonly KeptResult[]): ReadonlySet<string> {
  return new Set(
    results.flatMap(({ result }) =>
      result.kind === 'case' && result.isPassed && !isHelped(result) && result.run.scenario !== null
        ? [result.run.scenario]
        : [],
    ),
  );
}

function progressIn(
  knowledge: Knowledge,
  lesson: Lesson,
  results: readonly KeptResult[],
): TraineeRecord['course'][number] {
  const solved = doneScenarios(results);
  const has = (test: (result: KeptResult['result']) => boolean) => results.some(({ result }) => test(result));
  const steps = [
    ...(lesson.read.length === 0
      ? []
      : [
          {
            kind: 'read' as const,
            id: lesson.id,
            label: m.readSheets(),
            isDone: has((one) => one.kind === 'read' && one.lesson === lesson.id),
          },
        ]),
    ...lesson.scenarios.map((id) => ({
      kind: 'scenario' as const,
      id,
      label: knowledge.scenarios.get(id)?.title ?? id,
      isDone: solved.has(id),
    })),
    ...lesson.drills.map((id) => ({
      kind: 'drill' as const,
      id,
      label: DRILL_TITLES[id as DrillKind],
      isDone: has((one) => one.kind === 'drill' && one.drill === id && one.isRight),
    })),
  ];
  return {
    lesson: lesson.id,
    title: lesson.title,
    why: lesson.why,
    steps,
    sheets: lesson.read.map(({ kind, id }) => ({ kind, id, label: labelOfSheet(knowledge, kind, id) })),
    isDone: steps.every(({ isDone }) => isDone),
  };
}

function labelOfSheet(knowledge: Knowledge, kind: Lesson['read'][number]['kind'], id: string): string {
  const lists = {
    cause: knowledge.causes,
    practice: knowledge.practices,
    remedy: knowledge.remedies,
    observation: knowledge.observations,
  };
  return lists[kind].get(id)?.label ?? id;
}

function signOffIn(results: readonly KeptResult[], nowMs: number): TraineeRecord['signOff'] {
  const last = results.findLast(({ result }) => result.kind === 'signed-off');
  if (last?.result.kind !== 'signed-off') return null;
  const { by, lapsesOn } = last.result;
  return { by, at: last.at, lapsesOn, hasLapsed: Date.parse(lapsesOn) <= nowMs };
}

function labelOfItem(knowledge: Knowledge, item: string): Words {
  const drill = DRILL_KINDS.find((kind) => item === drillItem(kind));
  if (drill) return DRILL_TITLES[drill];
  return knowledge.causes.has(item) ? causeLabel(knowledge, item) : item;
}

/** What a trainee has shown, in words, for the sheet that the lead files. */
export function shownIn(record: TraineeRecord): Words[] {
  return record.course
    .filter(({ isDone }) => isDone)
    .map(({ title, steps }) => {
      const count = (kind: string) => steps.filter((step) => step.kind === kind).length;
      const [cases, drills] = [count('scenario'), count('drill')];
      const said = { cases: m.cases({ count: cases }), drills: m.drills({ count: drills }) };
      if (cases > 0 && drills > 0) return m.lessonShownBoth({ lesson: title, ...said });
      if (cases + drills === 0) return title;
      return m.lessonShown({ lesson: title, what: cases > 0 ? said.cases : said.drills });
    });
}

/** The trainer's view of everybody. */
export function trainingClass(
  knowledge: Knowledge,
  everybody: readonly TraineeParts[],
  nowMs: number,
): TrainingClass {
  const people = everybody.map(({ personId, initials, results }) => {
    const skills = skillsOf(knowledge, results);
    const knownAfter = (some: readonly KeptResult[]) =>
      countKnown(skillsOf(knowledge, some).map(({ known }) => known)).expected;
    const scored = results.flatMap(({ at, result }, index) =>
      result.kind === 'case'
        ? [
            {
              at,
              points: result.points,
              expectedKnown: knownAfter(results.slice(0, index + 1)),
            },
          ]
        : [],
    );
    const signOff = signOffIn(results, nowMs);
    return {
      personId,
      initials,
      results: results.length,
      known: countKnown(skills.map(({ known }) => known)),
      skills: skills.map(({ topic, known, items }) => ({ topic, known, items })),
      lessonsDone: [...knowledge.lessons.values()].filter(
        (lesson) => progressIn(knowledge, lesson, results).isDone,
      ).length,
      lastAt: results.at(-1)?.at ?? null,
      course: scored,
      sitting: lastSitting(results, knownAfter),
      signOff: signOff && { lapsesOn: signOff.lapsesOn, hasLapsed: signOff.hasLapsed },
    };
  });
  const active = people.filter(({ results }) => results > 0);
  const attempts = Map.groupBy(
    everybody.flatMap(({ results }) => results.flatMap(attemptsIn)),
    ({ item }) => item,
  );
  return {
    people,
    lessons: knowledge.lessons.size,
    topics: [...knowledge.trainingTopics.values()]
      .map(({ id, label }) => {
        const own = active.flatMap(({ skills }) => skills.filter(({ topic }) => topic === id));
        return {
          topic: id,
          label,
          known: own.reduce((sum, { known }) => sum + known, 0) / Math.max(1, own.length),
          items: own.reduce((sum, { items }) => sum + items, 0),
        };
      })
      .sort((a, b) => Number(a.items === 0) - Number(b.items === 0) || a.known - b.known),
    missed: mostMissed(
      [...attempts].map(([item, tries]) => ({
        item,
        label: labelOfItem(knowledge, item),
        wrong: tries.filter(({ isRight }) => !isRight).length,
        tries: tries.length,
      })),
    ),
    missedCases: missedCases(everybody.flatMap(({ results }) => results)),
  };
}

/** What somebody said of how sure he was, held against how often it was right; cases that the guide helped with say nothing. */
function statedIn(results: readonly KeptResult[]): Pick<TraineeRecord, 'calibration' | 'confidenceScore'> {
  const said = results.flatMap(({ result }) =>
    result.kind === 'case' && result.confidence !== null && !isHelped(result)
      ? [{ stated: result.confidence, isRight: result.isCauseRight }]
      : [],
  );
  const calibration = [...Map.groupBy(said, ({ stated }) => stated)]
    .map(([stated, own]) => ({
      stated,
      cases: own.length,
      right: own.filter(({ isRight }) => isRight).length,
    }))
    .sort((a, b) => a.stated - b.stated);
  const sum = said.reduce((points, { stated, isRight }) => points + confidenceScore(stated, isRight), 0);
  return { calibration, confidenceScore: said.length === 0 ? null : sum / said.length };
}

/** The results since the last break of hours: an afternoon, and what it changed. */
function lastSitting(
  results: readonly KeptResult[],
  knownAfter: (some: readonly KeptResult[]) => number,
): TrainingClass['people'][number]['sitting'] {
  const times = results.map(({ at }) => Date.parse(at));
  let first = results.length - 1;
  while (first > 0 && (times[first] ?? 0) - (times[first - 1] ?? 0) < BREAK_MS) first--;
  const own = results.slice(Math.max(0, first));
  const [begun] = own;
  if (!begun) return null;
  const cases = own.filter(({ result }) => result.kind === 'case');
  return {
    beganAt: begun.at,
    results: own.length,
    cases: cases.length,
    passed: cases.filter(({ result }) => result.kind === 'case' && result.isPassed).length,
    knownBefore: knownAfter(results.slice(0, Math.max(0, first))),
    knownAfter: knownAfter(results),
  };
}

function missedCases(results: readonly KeptResult[]): TrainingClass['missedCases'] {
  const solved = results.flatMap(({ result }) =>
    (result.kind === 'case' || result.kind === 'vote') && !isHelped(result) ? [result] : [],
  );
  const byCase = Map.groupBy(
    solved,
    // Earlier versions kept the title of a drawn case as words.
    ({ run, title }) => run.scenario ?? run.caseId ?? inEnglish(title),
  );
  return mostMissed(
    [...byCase.values()].flatMap((own) => {
      const [first] = own;
      const wrong = own.filter(({ isCauseRight }) => !isCauseRight).length;
      return first ? [{ title: first.title, scenario: first.run.scenario, wrong, tries: own.length }] : [];
    }),
  );
}

/** What was got wrong, most often first; of equal ones what fewer tried. */
function mostMissed<T extends { readonly wrong: number; readonly tries: number }>(all: readonly T[]): T[] {
  return all
    .filter(({ wrong }) => wrong > 0)
    .sort((a, b) => b.wrong - a.wrong || b.wrong / b.tries - a.wrong / a.tries)
    .slice(0, MOST_MISSED);
}
