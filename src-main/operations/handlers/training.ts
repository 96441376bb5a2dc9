import type { TrainingRun, TrainingScore, TrainingView } from '../../../src-core/contract/training-view.ts';
import type { TrainingDone, TrainingResult } from '../../../src-core/contract/training-results.ts';
import { eventsInForce } from '../../../src-core/session/logged-event.ts';
import { buildDrill } from '../../../src-core/training/drills/drill.ts';
import {
  shownIn,
  traineeRecord,
  trainingClass,
  type TraineeParts,
} from '../../../src-core/training/trainee-record.ts';
import { scenarioOfCase, type WrittenCase } from '../../../src-core/training/written-case.ts';
import { UNWATCHED } from '../../../src-core/contract/watch.ts';
import { nearestId } from '../../../src-core/knowledge/nearest-id.ts';
import { faults } from '../../../src-core/words/en/faults.ts';
import { trainingTexts } from '../../../src-core/words/en/training.ts';
import type { Words } from '../../../src-core/words/message.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { listPractisable } from '../../casebook/case-list.repository.ts';
import { freePracticePhoto, readPracticePhotos } from '../../casebook/shop-setting.repository.ts';
import { listPeople } from '../../casebook/person.repository.ts';
import {
  exportTrainingResults,
  forgetTrainingResults,
  keepTrainingResult,
  listTrainingResults,
} from '../../casebook/training-result.repository.ts';
import { teaches } from '../access/visitor.ts';
import { loadCase, type StoredCase } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import type { ApplicationContext } from '../application-context.ts';

const { m } = trainingTexts;

export const trainingView: Handler<'training:view'> = (program, run) => viewOf(program, run);

export const trainingWhyCandidate: Handler<'training:why-candidate'> = async (program, { run, cause }) => {
  mustBe(cause, new Set(program.knowledge.causes.keys()), refusals.notOfCauses);
  return program.reasoner.run('why-candidate', await contextOf(program, run), cause);
};

export const trainingWhyCheck: Handler<'training:why-check'> = async (program, { run, observation }) => {
  mustBe(observation, new Set(program.knowledge.observations.keys()), refusals.notOfObservations);
  return program.reasoner.run('why-check', await contextOf(program, run), observation, null);
};

export const trainingSecondThoughts: Handler<'training:second-thoughts'> = async (program, { run }) =>
  program.reasoner.run('second-thoughts', await contextOf(program, run));

/** What is known in a practice case in which the guide helps; where it does not, it gives no reasons away. */
async function contextOf(program: ApplicationContext, run: TrainingRun) {
  if (!run.withOdds || !run.asCase) throw new DomainError('refused', refusals.keepsReasons());
  const own = await ownOf(program, run);
  return program.reasoner.run('practice-context', run, own?.scenario ?? null);
}

/** Plays a run. What is scored takes the planner's time, so it is done as long work, beside the answers to others. */
async function viewOf(program: ApplicationContext, run: TrainingRun): Promise<TrainingView> {
  const own = await ownOf(program, run);
  const scenario = own?.scenario ?? null;
  const { reasoner } = program;
  const view = run.actions.some(({ kind }) => kind === 'name-cause')
    ? await reasoner.runWatched('training-view', UNWATCHED, run, scenario)
    : await reasoner.run('training-view', run, scenario);
  if (own === null) return view;
  const { photos } = await photosIn(program, own.log);
  const free = photos.flatMap(({ photo, isFree }) => (isFree ? [photo] : []));
  return { ...view, story: { ...view.story, photos: free } };
}

export const trainingPhotos: Handler<'training:photos'> = async (program, { caseId }) =>
  photosIn(program, (await loadCase(program, caseId)).log);

export const trainingFreePhoto: Handler<'training:free-photo'> = async (
  program,
  { caseId, photo, isFree },
) => {
  const { log } = await loadCase(program, caseId);
  const { photos } = await photosIn(program, log);
  if (!photos.some((one) => one.photo === photo)) throw new DomainError('not-found', refusals.noSuchPhoto());
  await freePracticePhoto(program.casebook.db, photo, isFree);
  return photosIn(program, log);
};

/** The photos that stand in a case, each once, with whether trainees may see it. */
async function photosIn(program: ApplicationContext, log: StoredCase['log']) {
  const free = await readPracticePhotos(program.casebook.db);
  const taken = new Map(
    eventsInForce(log).flatMap(({ at, event }) =>
      event.kind === 'photographed' ? [[event.photo, at] as const] : [],
    ),
  );
  return { photos: [...taken].map(([photo, at]) => ({ photo, at, isFree: free.includes(photo) })) };
}

/** The shop's own case that a run is about, with its log; null for any other. What the guide does not know is an error. */
async function ownOf(
  program: ApplicationContext,
  run: TrainingRun,
): Promise<{ readonly scenario: WrittenCase; readonly log: StoredCase['log'] } | null> {
  const { knowledge } = program;
  const families = new Set([...knowledge.causes.values()].map(({ family }): string => family));
  mustBe(run.family, families, refusals.notOfFamilies);
  mustBe(run.topic, new Set(knowledge.trainingTopics.keys()), refusals.notOfTopics);
  mustBe(run.focus, new Set(knowledge.causes.keys()), refusals.notOfCauses);
  mustBe(run.scenario, new Set(knowledge.scenarios.keys()), refusals.notOfScenarios);
  return run.caseId === null ? null : await ownCase(program, run.caseId);
}

function mustBe(id: string | null, known: ReadonlySet<string>, unknown: typeof refusals.notOfCauses): void {
  if (id === null || known.has(id)) return;
  const near = nearestId(id, known);
  throw new DomainError(
    'not-found',
    near ? faults.didYouMean({ what: unknown({ id }), near }) : unknown({ id }),
  );
}

async function ownCase(program: ApplicationContext, caseId: string) {
  const { log, step } = await loadCase(program, caseId);
  const scenario = scenarioOfCase(program.knowledge, caseId, step.moment.context);
  if ('fault' in scenario) throw new DomainError('refused', scenario.fault);
  return { scenario, log };
}

export const trainingOptions: Handler<'training:options'> = async ({ knowledge, casebook }) => ({
  topics: [...knowledge.trainingTopics.values()].map(({ id, label }) => ({ id, label })),
  scenarios: [...knowledge.scenarios.values()].map(({ id, title, topic, difficulty }) => ({
    id,
    title,
    topic,
    difficulty,
  })),
  cases: await listPractisable(casebook.db, [...knowledge.causes.keys()]),
  people: (await listPeople(casebook.db))
    .filter(({ isRetired }) => !isRetired)
    .map(({ id, initials }) => ({ id, initials })),
});

export const trainingDrill: Handler<'training:drill'> = ({ knowledge }, { drill, seed, answer }) =>
  buildDrill(knowledge, drill, seed, answer);

export const trainingRecord: Handler<'training:record'> = (program, { personId }) =>
  recordOf(program, personId);

export const trainingClassCall: Handler<'training:class'> = async (program) => {
  const { casebook, knowledge } = program;
  const results = await listTrainingResults(casebook.db);
  const people = (await listPeople(casebook.db)).filter(({ id, isRetired }) => !isRetired || results.has(id));
  return trainingClass(
    knowledge,
    people.map(({ id, initials }) => partsOf(id, initials, results.get(id))),
    program.now().getTime(),
  );
};

export const trainingKeep: Handler<'training:keep'> = async (program, { personId, resultId, done }, by) => {
  // A trainee's telephone may keep what the trainee did, and sign nobody off.
  if (done.kind === 'signed-off' && !teaches(by)) throw new DomainError('forbidden', refusals.signingOff());
  await mustBePerson(program, personId);
  const result = await resultOf(program, personId, done);
  const kept = await keepTrainingResult(program.casebook.db, personId, {
    resultId,
    at: program.now().toISOString(),
    result,
  });
  const record = await recordOf(program, personId);
  if (kept === 'there') throw new DomainError('stale', refusals.resultThere(), record);
  return record;
};

export const trainingExport: Handler<'training:export'> = async (program, { personId }) => {
  await mustBePerson(program, personId);
  const lines = await exportTrainingResults(program.casebook.db, personId);
  return { jsonLines: lines.map((line) => `${line}\n`).join(''), count: lines.length };
};

export const trainingForget: Handler<'training:forget'> = async (program, { personId }) => {
  await mustBePerson(program, personId);
  await forgetTrainingResults(program.casebook.db, personId);
  return recordOf(program, personId);
};

/** What is kept of what a trainee did: how it went is worked out here, from the guide, whatever a screen thinks of it. */
async function resultOf(
  program: ApplicationContext,
  personId: string,
  done: TrainingDone,
): Promise<TrainingResult> {
  const { knowledge } = program;
  switch (done.kind) {
    case 'class-table':
      return done;
    case 'read':
      mustBe(done.lesson, new Set(knowledge.lessons.keys()), refusals.notOfLessons);
      return done;
    case 'signed-off':
      return { ...done, shown: shownIn(await recordOf(program, personId)) };
    case 'drill': {
      const { graded, topic } = buildDrill(knowledge, done.drill, done.seed, done.answer);
      if (!graded) throw new DomainError('bad-request', refusals.drillNotOver());
      return { ...done, topic, isRight: graded.isRight };
    }
    case 'case':
    case 'vote': {
      const view = await viewOf(program, done.run);
      const { score } = view;
      if (!score) throw new DomainError('bad-request', refusals.nameCauseFirst());
      const facts = {
        run: done.run,
        title: view.title ?? m.caseOfSeed({ seed: view.seed }),
        topics: score.topics,
        difficulty: score.difficulty,
        trueCauses: score.trueCauses.map(({ cause }) => cause),
        trueLabel: trueLabelOf(score),
        named: view.done.findLast(({ kind }) => kind === 'name-cause')?.label ?? '',
        isCauseRight: score.isCauseRight,
      };
      if (done.kind === 'vote') return { kind: 'vote', ...facts };
      return {
        kind: 'case',
        ...facts,
        isPassed: score.isPassed,
        points: score.points,
        minutes: score.minutesSpent,
        plannerMinutes: score.planner.minutes,
        checks: score.checks,
        remedies: score.remedies,
        cautionsNeeded: score.cautions.needed,
        cautionsRead: score.cautions.read,
        confidence: score.confidence?.stated ?? null,
      };
    }
  }
}

/** The true causes in words, for when the guide is another. */
function trueLabelOf({ trueCauses }: TrainingScore): Words {
  const labels = trueCauses.map(({ label }) => label);
  return labels.length === 1 ? (labels[0] ?? '') : m.causes({ causes: labels });
}

async function mustBePerson(program: ApplicationContext, personId: string): Promise<string> {
  const person = (await listPeople(program.casebook.db)).find(({ id }) => id === personId);
  if (!person) throw new DomainError('not-found', refusals.nobodyWithId());
  return person.initials;
}

async function recordOf(program: ApplicationContext, personId: string) {
  const initials = await mustBePerson(program, personId);
  const results = await listTrainingResults(program.casebook.db, personId);
  return traineeRecord(
    program.knowledge,
    partsOf(personId, initials, results.get(personId)),
    program.now().getTime(),
  );
}

function partsOf(
  personId: string,
  initials: string,
  own: { readonly results: TraineeParts['results']; readonly unreadable: number } | undefined,
): TraineeParts {
  return { personId, initials, results: own?.results ?? [], unreadable: own?.unreadable ?? 0 };
}
