import type { Network } from '../../src-core/contract/network-view.ts';
import { networkDoor } from '../../src-core/words/en/network-door.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import type { Message } from '../../src-core/words/message.ts';
import { codeOf } from '../casebook/file-trouble.ts';
import { SaidError } from '../../src-core/words/said-error.ts';
import type { NetworkSwitch } from '../operations/access/network-switch.ts';
import type { OwnAuthority } from './certificates/own-authority.ts';
import type { Door } from './door.ts';
import type { DoorSettings, Inside } from './door-settings.ts';
import { answeringName } from './local-name.ts';
import { addressesOf, addressOf, coveredBy, namesOf, ownLocalName, ownName } from './network-names.ts';
import type { RootPage } from './root-page.ts';

/** Certificates, addresses and the local name are looked after this often. */
const LOOK_AFTER_MS = 60 * 60_000;
const YEAR_MS = 365 * 24 * 60 * 60_000;

/** How the door for tablets and phones is to be opened, when it is. */
export interface NetworkPlan {
  /** Which address of this machine devices come in by. */
  readonly address: string;
  readonly port: number;
  /** Where the page with the root is, over plain HTTP. */
  readonly rootPagePort: number;
  /** Names of this machine that were given. */
  readonly named: readonly string[];
  readonly security:
    | { readonly kind: 'own-authority' }
    | { readonly kind: 'given-certificate'; readonly certificate: NonNullable<DoorSettings['certificate']> }
    | { readonly kind: 'plain-http' };
}

export interface NetworkDoorSettings {
  readonly plan: NetworkPlan;
  /** It was said at the start whether it is open: the switch cannot change it. */
  readonly isSaidAtStart: boolean;
  readonly inside: Inside;
  /** Where the station's own certificate authority lies; null keeps it in memory. */
  readonly certificateFolder: string | null;
  /** Keeps what the switch says over the next start. */
  readonly remember: (isOpen: boolean) => void;
  readonly warn: (words: string) => void;
  readonly now?: () => Date;
  readonly answeringName?: () => Promise<string | null>;
}

interface Opened {
  readonly door: Door;
  readonly authority: OwnAuthority | null;
  readonly rootPage: RootPage | null;
  certificate: DoorSettings['certificate'];
  /** Why the root's page is not there; null where it is, or none is needed. */
  readonly rootPageTrouble: Message | null;
  readonly lookingAfter: NodeJS.Timeout;
}

/**
 * The door for tablets and phones: closed until it is said, at the start or by the switch in the settings. Behind it is what is
 * behind the machine's own, but no token lets anybody in. Its certificate is renewed while it is open.
 */
export class NetworkDoor implements NetworkSwitch {
  readonly #settings: NetworkDoorSettings;
  readonly #now: () => Date;
  #opened: Opened | null = null;
  #answering: string | null = null;
  /** Why it could not be opened, or looked after, last. */
  #trouble: Message | null = null;
  /** One after the other: a door that is still closing has its port. */
  #turn: Promise<unknown> = Promise.resolve();

  constructor(settings: NetworkDoorSettings) {
    this.#settings = settings;
    this.#now = settings.now ?? (() => new Date());
  }

  get view(): Network {
    const { plan, isSaidAtStart } = this.#settings;
    const addresses = this.#addresses();
    return {
      isOpen: this.#opened !== null,
      isSaidAtStart,
      security: plan.security.kind,
      addresses,
      root: this.#rootView(addresses[0]),
      problem: this.#problem(),
    };
  }

  /** The port at which it is open; null while it is closed. */
  get port(): number | null {
    return this.#opened?.door.port ?? null;
  }

  async switchTo(isOpen: boolean): Promise<void> {
    if (isOpen) await this.open();
    // Not waited for: whoever asks may have come in by it, and is to hear that it was done.
    else void this.close();
    this.#settings.remember(isOpen);
  }

  /** Throws a `SaidError` where it cannot be opened. */
  open(): Promise<void> {
    return this.#inTurn(async () => {
      if (this.#opened) return;
      try {
        this.#opened = await this.#open();
        this.#trouble = null;
      } catch (error) {
        const trouble = this.#saidOf(error);
        this.#trouble = trouble;
        throw new SaidError(trouble, { cause: error });
      }
      const problem = this.#problem();
      if (problem) this.#settings.warn(inEnglish(problem));
    });
  }

  /** Nobody comes in from now on; what is under way may end. */
  close(): Promise<void> {
    const opened = this.#opened;
    this.#opened = null;
    this.#trouble = null;
    return this.#inTurn(async () => {
      // It may only just have been opened.
      const late = this.#opened;
      this.#opened = null;
      for (const one of [opened, late]) {
        clearInterval(one?.lookingAfter);
        await Promise.all([one?.door.close(), one?.rootPage?.close()]);
      }
    });
  }

  /** Renews what is about to lapse, and takes new addresses of the machine in. Never throws: see `view.problem`. */
  lookAfter(): Promise<void> {
    return this.#inTurn(async () => {
      const opened = this.#opened;
      if (!opened) return;
      this.#answering = await this.#askForName();
      if (!opened.authority) return;
      try {
        const certificate = this.#issue(opened.authority);
        this.#trouble = null;
        if (opened.certificate?.cert.equals(certificate.cert)) return;
        opened.door.useCertificate(certificate);
        opened.certificate = certificate;
      } catch (error) {
        this.#trouble = networkDoor.notRenewed({ why: this.#saidOf(error) });
        this.#settings.warn(inEnglish(this.#trouble));
      }
    });
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#turn.then(work);
    this.#turn = done.catch(() => undefined);
    return done;
  }

  async #open(): Promise<Opened> {
    const { plan, inside } = this.#settings;
    // Loaded where they are needed: most Beadwrights stay on their machine.
    const { openDoor } = await import('./door.ts');
    this.#answering = await this.#askForName();
    const authority = plan.security.kind === 'own-authority' ? await this.#authority() : null;
    const certificate = authority ? this.#issue(authority) : this.#givenCertificate();
    const door = await openDoor(
      {
        address: plan.address,
        port: plan.port,
        certificate,
        names: () => this.#names(this.#givenCertificate()),
        token: null,
      },
      inside,
    );
    const { rootPage, trouble } = authority
      ? await this.#openRootPage(authority)
      : { rootPage: null, trouble: null };
    const lookingAfter = setInterval(() => void this.lookAfter(), LOOK_AFTER_MS).unref();
    return { door, authority, rootPage, certificate, rootPageTrouble: trouble, lookingAfter };
  }

  async #authority(): Promise<OwnAuthority> {
    const { OwnAuthority } = await import('./certificates/own-authority.ts');
    return new OwnAuthority(this.#settings.certificateFolder, this.#now);
  }

  #issue(authority: OwnAuthority): NonNullable<DoorSettings['certificate']> {
    return authority.certificateFor(this.#names(null), {
      called: `Beadwright at ${ownName()}`,
      alsoFor: [ownName(), ownLocalName()],
    });
  }

  /** Without it devices warn, or a root is carried to them by hand: no reason to keep the door shut. */
  async #openRootPage(
    authority: OwnAuthority,
  ): Promise<{ readonly rootPage: RootPage | null; readonly trouble: Message | null }> {
    const { address, rootPagePort } = this.#settings.plan;
    const { openRootPage } = await import('./root-page.ts');
    try {
      const rootPage = await openRootPage({
        address,
        port: rootPagePort,
        root: () => {
          const { root } = authority;
          if (!root) throw new Error('there is no root');
          return root;
        },
        stations: () => this.#addresses(),
      });
      return { rootPage, trouble: null };
    } catch (error) {
      return {
        rootPage: null,
        trouble: networkDoor.rootPageAway({ why: portSaid(error, rootPagePort) }),
      };
    }
  }

  #askForName(): Promise<string | null> {
    return (this.#settings.answeringName ?? answeringName)();
  }

  #givenCertificate(): DoorSettings['certificate'] {
    const { security } = this.#settings.plan;
    return security.kind === 'given-certificate' ? security.certificate : null;
  }

  #names(certificate: DoorSettings['certificate']): readonly string[] {
    const { address, named } = this.#settings.plan;
    return namesOf(address, { named, certificate, answering: this.#answering });
  }

  #addresses(): string[] {
    if (!this.#opened) return [];
    const { door, certificate } = this.#opened;
    const shown = addressesOf(this.#names(this.#givenCertificate()), certificate, door.port);
    // A name that does not answer only keeps people waiting.
    const silent = this.#answering === null && !this.#settings.plan.named.includes(ownLocalName());
    return silent ? shown.filter((one) => new URL(one).hostname !== ownLocalName()) : shown;
  }

  /** `first`: the best address of the station. */
  #rootView(first: string | undefined): Network['root'] {
    const { authority, rootPage } = this.#opened ?? {};
    const root = authority?.root;
    if (!root) return null;
    const host = first === undefined ? null : new URL(first).hostname.replace(/^\[(.*)\]$/, '$1');
    return {
      called: root.called,
      fingerprint: root.fingerprint,
      until: root.until.toISOString(),
      page: rootPage && host !== null ? `${addressOf('http', host, rootPage.port)}/` : null,
    };
  }

  #problem(): Message[] | null {
    const { named, security } = this.#settings.plan;
    const opened = this.#opened;
    const said = [this.#trouble, opened?.rootPageTrouble ?? null].filter((one) => one !== null);
    if (opened?.certificate && security.kind === 'own-authority') {
      const covered = coveredBy(opened.certificate.cert, named);
      const left = named.filter((name) => !covered.includes(name));
      if (left.length > 0) said.push(notVouchedFor(left, this.#settings.certificateFolder));
      const root = opened.authority?.root;
      if (root && root.until.getTime() - this.#now().getTime() < YEAR_MS)
        said.push(networkDoor.rootLapses({ day: { day: root.until.toISOString().slice(0, 10) } }));
    }
    return said.length > 0 ? said : null;
  }

  #saidOf(error: unknown): Message {
    return portSaid(error, this.#settings.plan.port);
  }
}

function notVouchedFor(names: readonly string[], folder: string | null): Message {
  return folder === null
    ? networkDoor.rootNotForInMemory({ names })
    : networkDoor.rootNotFor({ names, folder });
}

function portSaid(error: unknown, port: number): Message {
  const code = codeOf(error);
  if (code === 'EADDRINUSE') return networkDoor.portTaken({ port });
  if (code === 'EACCES') return networkDoor.portNotAllowed({ port });
  if (code === 'EADDRNOTAVAIL') return networkDoor.noSuchAddress();
  if (error instanceof SaidError) return error.said;
  return networkDoor.asTheSystemSays({ words: error instanceof Error ? error.message : String(error) });
}
