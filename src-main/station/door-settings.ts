import type https from 'node:https';
import type { FastifyInstance } from 'fastify';
import type { Change } from '../../src-core/contract/change.ts';
import type { StartFault } from '../bootstrap/start-fault.ts';
import type { Doorkeeper } from '../operations/access/doorkeeper.ts';
import type { Visitor } from '../operations/access/visitor.ts';
import type { Dispatcher } from '../operations/dispatcher.ts';
import type { StationLog } from './station-log.ts';

export type Server = FastifyInstance<https.Server>;

/** What lies behind every door of a station. */
export interface Inside {
  /** The built renderer. */
  readonly rendererFolder: string;
  readonly dispatcher: Pick<Dispatcher, 'dispatch'>;
  /** What the start failed of is shown in place of the screens, until it is gone. */
  readonly start?: {
    readonly fault: StartFault | null;
    readonly program: unknown;
    tryAgain(): Promise<void>;
  };
  /** What the guide is made of now, in a word; null while there is none. */
  readonly guideTag?: () => string | null;
  /** The page of the screens, as this visitor opens it. */
  readonly readPage: (visitor: Visitor) => Promise<string>;
  /** What is written, for the screens that follow it. */
  readonly followChanges: (listener: (change: Change) => void) => () => void;
  /** A photo by its hash, or null. */
  readonly readPhoto: (hash: string) => Promise<Buffer | null>;
  /** Knows devices; null while there is no program to know them. */
  readonly doorkeeper?: () => Doorkeeper | null;
  /** What was asked, without what was said in it. */
  readonly log?: Pick<StationLog, 'answered'>;
}

export interface DoorSettings {
  /** The address of this machine on which it listens. */
  readonly address: string;
  /** 0 takes any free port. */
  readonly port: number;
  readonly certificate: { readonly cert: Buffer; readonly key: Buffer } | null;
  /** By what names, without the port, it is asked for. */
  readonly names: () => readonly string[];
  /** What lets a browser of this machine in; null where only devices come. */
  readonly token: string | null;
}
