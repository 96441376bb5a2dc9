import { randomBytes } from 'node:crypto';
import { monotonicFactory } from 'ulid';
import type { Bench } from '../../src-core/contract/bench-view.ts';
import type { Caller } from '../../src-core/contract/calls.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { JobMachine } from '../../src-core/flow/index.ts';
import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import { flowOf } from '../../src-core/session/advance.ts';
import type { CaseFlow } from '../../src-core/session/case-flow.ts';
import type { Casebook } from '../casebook/casebook.ts';
import { AccessDesk } from './access/access-desk.ts';
import { ChangeFeed } from './change-feed.ts';
import { SharedAnswer } from './shared-answer.ts';
import { PaperDesk } from './paper-desk.ts';
import { UploadSessions } from './upload-sessions.ts';
import { TaskRegistry } from './task-registry.ts';
import { reasonerInThisThread, type Reasoner } from '../reasoning/reasoner.ts';

/** Everything operations work with. Built once by a host and passed in: no globals. */
export interface ApplicationContext {
  readonly host: Caller;
  readonly programVersion: string;
  /** Of whatever cases are reasoned with: what is kept under another is worked out anew. */
  readonly engineVersion: string;
  readonly knowledge: Knowledge;
  /** The guide's parsed files, to be kept in the casebook under its version; null where the host keeps none. */
  readonly guideFiles: (() => readonly KnowledgeFile[]) | null;
  readonly flow: CaseFlow;
  readonly casebook: Casebook;
  /** What is worked out about cases; handlers await it, so that the host goes on answering. */
  readonly reasoner: Reasoner;
  /** Job files under way from the screens. */
  readonly jobs: UploadSessions<JobMachine>;
  /** Long work that the screens look after. */
  readonly work: TaskRegistry;
  /** What was written, for screens that follow it. */
  readonly changes: ChangeFeed;
  /** The board of the shop, which every screen reads after every answer at any of them. */
  readonly bench: SharedAnswer<Bench>;
  /** The way in, as far as only this process knows it. */
  readonly desk: AccessDesk;
  /** Where a host with a window says that it makes PDF. */
  readonly paper: PaperDesk;
  /** Where the demo shop and other files of the program lie. */
  readonly resourcesFolder: string;
  /** Where the files of the screens' other languages lie; null where there are none. */
  readonly languagesFolder: string | null;
  now(): Date;
  newId(): string;
}

export interface ApplicationParts {
  readonly host: Caller;
  readonly programVersion: string;
  /** The program's version where none is given. */
  readonly engineVersion?: string;
  readonly knowledge: Knowledge;
  readonly guideFiles?: () => readonly KnowledgeFile[];
  readonly casebook: Casebook;
  readonly resourcesFolder: string;
  readonly languagesFolder?: string;
  /** In this thread where none is given. */
  readonly reasoner?: Reasoner;
  readonly now?: () => Date;
}

export function createApplicationContext(parts: ApplicationParts): ApplicationContext {
  const now = parts.now ?? (() => new Date());
  const changes = new ChangeFeed();
  parts.casebook.followOthers(changes.raise);
  const nextUlid = monotonicFactory(() => randomBytes(1).readUInt8() / 256);
  return {
    host: parts.host,
    programVersion: parts.programVersion,
    engineVersion: parts.engineVersion ?? parts.programVersion,
    guideFiles: parts.guideFiles ?? null,
    knowledge: parts.knowledge,
    flow: flowOf(parts.knowledge),
    casebook: parts.casebook,
    reasoner: parts.reasoner ?? reasonerInThisThread(parts.knowledge),
    resourcesFolder: parts.resourcesFolder,
    languagesFolder: parts.languagesFolder ?? null,
    jobs: new UploadSessions(),
    work: new TaskRegistry(),
    changes,
    bench: new SharedAnswer(changes, 'bench'),
    desk: new AccessDesk(),
    paper: new PaperDesk(),
    now,
    newId: () => nextUlid(now().getTime()),
  };
}
