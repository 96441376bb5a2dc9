import type { CallName } from '../../../src-core/contract/call-names.ts';
import type { OutputOf, ParsedInputOf } from '../../../src-core/contract/calls.ts';
import type { Role } from '../../../src-core/contract/roles.ts';
import { auditTexts } from '../../../src-core/words/en/audit.ts';
import { inEnglish } from '../../../src-core/words/in-english.ts';
import type { Message, Words } from '../../../src-core/words/message.ts';
import { appendAuditEntry, listAuditEntriesWith, updateAuditEntry } from '../../casebook/audit.repository.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import type { ApplicationContext } from '../application-context.ts';
import { visitorSaid, type Visitor } from './visitor.ts';

const { m } = auditTexts;

const ROLE: Readonly<Record<Role, Message>> = {
  operator: m.operator(),
  lead: m.lead(),
  trainer: m.trainer(),
};
/** As in "a device for operators". */
export const ROLES: Readonly<Record<Role, Message>> = {
  operator: m.operators(),
  lead: m.leads(),
  trainer: m.trainers(),
};

const REPORTS = {
  case: m.caseReport,
  month: m.monthReport,
  printer: m.printerReport,
  'guide-use': m.guideReport,
} as const;

type Saying<N extends CallName> = (input: ParsedInputOf<N>, output: OutputOf<N>) => Message | null;

/** What goes into the list of who changed rights and who took data out; null where this one call does not. */
const audited: { readonly [N in CallName]?: Saying<N> } = {
  'shop:save-person': ({ initials, role, isRetired }) =>
    isRetired ? m.left({ initials }) : m.isNow({ initials, role: ROLE[role] }),
  'access:invite': ({ label, role }) => m.codeMade({ label, role: ROLE[role] }),
  'access:change-device': ({ label, role }) => m.deviceIs({ label, roles: ROLES[role] }),
  'network:switch': ({ isOpen }) => (isOpen ? m.networkOpened() : m.networkClosed()),
  'access:sign-in': (_input, { person }) => m.signedIn({ initials: person?.initials ?? '' }),
  'access:sign-out': () => m.signedOut(),
  // A page after the first belongs to the same export.
  'case:export': ({ after, caseIds }, { count, next }) => {
    if (after !== null) return null;
    return caseIds === null && next !== null ? m.casesExportedAll() : m.casesExported({ count });
  },
  'training:export': (_input, { count }) => m.resultsExported({ count }),
  'case:import': (_input, { imported }) => (imported > 0 ? m.casesImported({ count: imported }) : null),
  'report:make': ({ about }) => REPORTS[about.kind](),
  'spreadsheet:import': ({ isDryRun, fileName }, { fresh }) =>
    isDryRun || fresh === 0 ? null : m.sheetImported({ count: fresh, fileName }),
  'backup:restore': (_input, { restored }) => m.backupRestored({ name: restored }),
};

/** Writes a call that went through into the list, where it belongs there. */
export async function auditCall<N extends CallName>(
  program: ApplicationContext,
  by: Visitor,
  name: N,
  input: ParsedInputOf<N>,
  output: OutputOf<N>,
): Promise<void> {
  const what = (audited[name] as Saying<N> | undefined)?.(input, output) ?? null;
  if (what !== null) await audit(program, visitorSaid(by), what);
}

export async function audit(program: ApplicationContext, who: Message, what: Message): Promise<void> {
  await appendAuditEntry(program.casebook.db, {
    id: program.newId(),
    at: program.now().toISOString(),
    who,
    what,
  });
}

/** The list keeps what was done, under the new initials, or under nobody's. */
export async function renameInAudit(db: CasebookDb, from: string, to: string | null): Promise<void> {
  for (const { id, who, what } of await listAuditEntriesWith(db, from)) {
    await updateAuditEntry(db, id, {
      who: typeof who === 'string' ? renamedInWho(who, from, to) : renamed(who, from, to),
      what: typeof what === 'string' ? renamedInWords(what, from, to) : renamed(what, from, to),
    });
  }
}

function renamed(said: Exclude<Words, string>, from: string, to: string | null): Words {
  if (!('id' in said) || said.values?.['initials'] !== from) return said;
  return { ...said, values: { ...said.values, initials: to ?? m.somebodyRemoved() } };
}

/** Sentences of before 28 November 2026. */
function renamedInWho(who: string, from: string, to: string | null): string {
  return who.endsWith(` (${from})`) ? `${who.slice(0, -from.length - 2)}(${nameOf(to)})` : who;
}

/** Names of devices and files stand in quotes and are left alone. */
function renamedInWords(what: string, from: string, to: string | null): string {
  const asWord = new RegExp(`(?<!\\p{L})${from}(?!\\p{L})`, 'gu');
  return what
    .split(/(“[^”]*”)/)
    .map((part) => (part.startsWith('“') ? part : part.replace(asWord, nameOf(to))))
    .join('');
}

function nameOf(initials: string | null): string {
  return initials ?? inEnglish(m.somebodyRemoved());
}
