import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { CaseView } from '../../../src-core/contract/case-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Reply } from '../../../src-core/contract/reply.ts';
import type {
  RunActionInput,
  TrainingRunInput,
  TrainingView,
} from '../../../src-core/contract/training-view.ts';
import type { CaseLink } from '../case/case-link.ts';
import { CaseSession } from '../case/case-session.svelte.ts';
import type { PracticeRound } from './practice-round.svelte.ts';
import { m } from '../../messages/en/practice.ts';

/** Events after which another thing lies before the trainee, whose cautions are not read yet. */
const TURNS_TO_OTHERS: ReadonlySet<CaseEvent['kind']> = new Set([
  'answered',
  'skipped',
  'jumped',
  'verdict-asked',
  'checking-resumed',
  'remedy-chosen',
  'remedy-left',
  'remedy-done',
  'verified',
]);

/**
 * One practice case in the screens of a real one: what the screens send goes to the simulated machine, and nothing of it to the
 * casebook. Cautions stay covered until the trainee asks for them, as nobody points at them beside a real machine.
 */
export class PracticeDesk implements CaseLink {
  readonly round: PracticeRound;
  readonly session: CaseSession;
  /** What can hurt somebody in what lies before the trainee was asked for. */
  hasRead = $state(false);
  /** How sure the trainee is of the cause, 0 to 1; null until it is said. */
  confidence = $state<number | null>(null);

  readonly #host: HostApi;
  /** Whether the cautions of the remedy under way had been read when its first step was done; null before that. */
  #hadRead: boolean | null = null;

  /** Requires a round whose case is begun. */
  constructor(host: HostApi, round: PracticeRound) {
    this.#host = host;
    this.round = round;
    this.session = new CaseSession(this, round.view?.case?.caseId ?? '');
    void this.session.load();
  }

  /** Beside the case: what there is to choose from. */
  get choices(): TrainingView | null {
    return this.round.view;
  }

  /** The case as it is shown: with its cautions once they were asked for. */
  get shown(): CaseView | null {
    const { view } = this.session;
    if (view === null || this.hasRead) return view;
    return {
      ...view,
      question: view.question && { ...view.question, cautions: [] },
      remedy: view.remedy && {
        ...view.remedy,
        steps: view.remedy.steps.map((step) => ({ ...step, cautions: [] })),
      },
    };
  }

  /** Whether what lies before the trainee can hurt somebody. */
  get canHurt(): boolean {
    const { view } = this.session;
    return (
      (view?.question?.cautions.length ?? 0) > 0 ||
      view?.remedy?.steps.some(({ cautions }) => cautions.length > 0) === true
    );
  }

  /** Looks at the simulated machine; it takes the minutes that it would take. */
  async look(observation: string): Promise<void> {
    const reply = await this.#act({ kind: 'check', observation, readCautions: this.hasRead });
    if (reply.ok) await this.session.load();
    else this.session.notice = reply.error.message;
  }

  view(): Promise<Reply<CaseView>> {
    return Promise.resolve(this.#now());
  }

  async send(event: CaseEvent): Promise<Reply<CaseView>> {
    const reply = await this.#act(this.#actionOf(event));
    if (reply.ok && TURNS_TO_OTHERS.has(event.kind)) this.hasRead = false;
    if (event.kind === 'remedy-chosen' || event.kind === 'remedy-left') this.#hadRead = null;
    return reply;
  }

  whyCandidate(cause: string) {
    return this.#host.call('training:why-candidate', { run: this.#run(), cause });
  }

  whyCheck(observation: string) {
    return this.#host.call('training:why-check', { run: this.#run(), observation });
  }

  secondThoughts() {
    return this.#host.call('training:second-thoughts', { run: this.#run() });
  }

  /** The same in the words of a run, or what is still missing for it. */
  #actionOf(event: CaseEvent): RunActionInput | { readonly missing: string } {
    switch (event.kind) {
      case 'step-ticked':
        if (event.isDone) this.#hadRead ??= this.hasRead;
        return { kind: 'event', event };
      case 'remedy-done':
        return {
          kind: 'remedy',
          remedy: this.session.view?.remedy?.id ?? '',
          readCautions: this.#hadRead ?? this.hasRead,
        };
      case 'closed': {
        const [first, ...others] = event.causes;
        if (first === undefined || !('cause' in first)) return { missing: m.pickACauseOfTheGuide() };
        if (others.length > 0) return { missing: m.nameOneCauseWhereTwoAre() };
        if (this.confidence === null) return { missing: m.sayHowSureYouAre() };
        const { cause } = first;
        return { kind: 'name-cause', cause, practice: event.practice, confidence: this.confidence };
      }
      default:
        return { kind: 'event', event };
    }
  }

  async #act(action: RunActionInput | { readonly missing: string }): Promise<Reply<CaseView>> {
    if ('missing' in action) return { ok: false, error: { code: 'refused', message: action.missing } };
    if (await this.round.act(action)) return this.#now();
    const { refusal, failure } = this.round;
    if (refusal) return { ok: false, error: { code: 'refused', message: refusal } };
    return {
      ok: false,
      error: failure ?? { code: 'refused', message: m.theStepBeforeIsStillUnder() },
    };
  }

  #now(): Reply<CaseView> {
    const view = this.round.view?.case;
    return view
      ? { ok: true, value: view }
      : { ok: false, error: { code: 'not-found', message: m.noPracticeCaseIsBegun() } };
  }

  #run(): TrainingRunInput {
    return this.round.run ?? { seed: 0, actions: [] };
  }
}
