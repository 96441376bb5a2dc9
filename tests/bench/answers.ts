import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { CaseView } from '../../src-core/contract/case-view.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { createApplicationContext } from '../../src-main/operations/application-context.ts';
import { createDispatcher } from '../../src-main/operations/dispatcher.ts';
import { handlers } from '../../src-main/operations/handlers.ts';
import { reasonerInWorkers } from '../../src-main/reasoning/worker-reasoner.ts';
import { caseFileOf, readFurtherCases, readOpenCases, type RealCase } from '../open-cases/open-cases.ts';
import { restsOf } from '../reasoning/rests.ts';

const root = path.join(import.meta.dirname, '..', '..');
/** Questions answered in one case. */
const ANSWERS = 4;
const SAFE: CaseEvent = { kind: 'danger-answered', present: [] };

/** One `case:send` of an answer. */
interface Sent {
  /** By the clock, and what the whole process worked meanwhile. */
  readonly ms: number;
  readonly cpuMs: number;
  readonly wasForeseen: boolean;
}

/**
 * What `case:send` costs for an answer to the question that is shown, at the gate of the station, with a casebook on disk. People
 * answer at their pace: the next answer comes when the reasoning thread has nothing more to do. Each case has `events` entries
 * when its last question is answered.
 */
export async function benchAnswers(count: number, events: readonly number[]): Promise<void> {
  const knowledge = readKnowledge(root, programVersion(root));
  const cases = [...readOpenCases(), ...readFurtherCases()].slice(0, count);
  console.log(
    `case:send of an answer at human pace, ${cases.length} real cases, load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} cores`,
  );
  for (const length of events) {
    for (const looksAhead of [true, false]) {
      const sent = await answerAll(knowledge, cases, length, looksAhead);
      const name = `event ${length < 10 ? 'of a short case' : length}, thinking ahead ${looksAhead ? 'on' : 'off'}`;
      for (const [what, some] of [
        ['ready', sent.filter(({ wasForeseen }) => wasForeseen)],
        ['worked out', sent.filter(({ wasForeseen }) => !wasForeseen)],
      ] as const) {
        if (some.length > 0) console.log(`  ${`${name}: ${what}`.padEnd(52)} ${figuresOf(some)}`);
      }
    }
  }
}

function figuresOf(sent: readonly Sent[]): string {
  const of = (values: readonly number[], share: number) => {
    const sorted = values.toSorted((a, b) => a - b);
    return (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN).toFixed(1);
  };
  const byClock = sent.map(({ ms }) => ms);
  const worked = sent.map(({ cpuMs }) => cpuMs);
  return `${String(sent.length).padStart(4)} answers, by the clock median ${of(byClock, 0.5)} p95 ${of(byClock, 0.95)} ms, CPU median ${of(worked, 0.5)} p95 ${of(worked, 0.95)} ms`;
}

async function answerAll(
  knowledge: Knowledge,
  cases: readonly RealCase[],
  length: number,
  looksAhead: boolean,
): Promise<Sent[]> {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-answers-'));
  const rests = restsOf();
  const reasoner = reasonerInWorkers(
    path.join(root, 'src-main', 'reasoning', 'worker.ts'),
    { folder: root, programVersion: programVersion(root) },
    { looksAhead, onRested: rests.tell },
  );
  // A thread that only thinks ahead keeps no process alive.
  const awake = setInterval(() => undefined, 60_000);
  const casebook = new FileCasebook(path.join(folder, 'casebook.sqlite'), () => new Date());
  await casebook.open();
  try {
    const program = createApplicationContext({
      host: 'station',
      programVersion: programVersion(root),
      knowledge,
      reasoner,
      casebook,
      resourcesFolder: path.join(root, 'resources'),
      now: () => new Date(),
    });
    const dispatcher = createDispatcher(program, handlers, 'station');
    const ask = async <N extends CallName>(name: N, input: InputOf<N>): Promise<OutputOf<N>> => {
      const reply = await dispatcher.call(name, input);
      if (!reply.ok) throw new Error(reply.error.message);
      return reply.value;
    };
    const send = async ({ caseId, revision }: CaseView, event: CaseEvent) => {
      const { hits } = rests.counts();
      const rested = rests.once();
      const cpuAt = process.cpuUsage();
      const at = performance.now();
      const view = await ask('case:send', { caseId, revision, event });
      const ms = performance.now() - at;
      const { user, system } = process.cpuUsage(cpuAt);
      if (looksAhead) await rested;
      return { view, ms, cpuMs: (user + system) / 1000, wasForeseen: rests.counts().hits > hits };
    };

    const sent: Sent[] = [];
    for (const [index, real] of cases.entries()) {
      const intake = intakeOf(knowledge, real);
      if (!intake) continue;
      let view = await ask('case:open', intake);
      if (view.state !== 'stop-now') continue;
      view = (await send(view, SAFE)).view;
      if (length > 10) view = await lengthened(ask, view, length - ANSWERS);
      // What was brought in is read, not answered; a note is an answer at the machine.
      if (length > 10) view = (await send(view, { kind: 'noted', text: 'now I look' })).view;
      for (let n = 0; n < ANSWERS; n++) {
        const [other] = view.otherChecks;
        // Where a remedy comes next somebody asks for one check more.
        if (!view.question && other && view.state === 'checking')
          view = (await send(view, { kind: 'jumped', observation: other.observation })).view;
        if (!view.question) break;
        const { observation, answers } = view.question;
        const value = answers[(index + n) % answers.length]?.value ?? '';
        const { view: next, ...figures } = await send(view, { kind: 'answered', observation, value });
        sent.push(figures);
        view = next;
      }
    }
    return sent;
  } finally {
    clearInterval(awake);
    await reasoner.close();
    await casebook.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function intakeOf(knowledge: Knowledge, real: RealCase) {
  const { intake } = contextOfCase(knowledge, caseFileOf(knowledge, real.id, real));
  return intake && { conditions: intake.conditions, complaints: intake.complaints };
}

/** The case with notes between, so that it has `length` entries; the casebook takes it in as a line of an export. */
async function lengthened(
  ask: <N extends CallName>(name: N, input: InputOf<N>) => Promise<OutputOf<N>>,
  view: CaseView,
  length: number,
): Promise<CaseView> {
  const { jsonLines } = await ask('case:export', {});
  const line = jsonLines
    .split('\n')
    .filter((text) => text !== '')
    .map((text) => JSON.parse(text) as { caseId: string; events: object[] })
    .find(({ caseId }) => caseId === view.caseId);
  const last = line?.events.at(-1);
  if (!line || !last) throw new Error('the export lacks the case');
  const caseId = `${view.caseId.slice(0, -4)}0000`;
  const notes = Array.from({ length: length - line.events.length - 1 }, (_, k) => ({
    ...last,
    seq: line.events.length + 1 + k,
    event: { kind: 'noted', text: `note ${k}` },
  }));
  const long = JSON.stringify({ ...line, caseId, events: [...line.events, ...notes] });
  const { faults } = await ask('case:import', { jsonLines: long });
  if (faults.length > 0) throw new Error(JSON.stringify(faults));
  return ask('case:view', { caseId });
}
