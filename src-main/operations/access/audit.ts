import type { CallName } from '../../../src-core/contract/call-names.ts';
import type { OutputOf, ParsedInputOf } from '../../../src-core/contract/calls.ts';
import { appendAuditEntry, listAuditEntriesWith, updateAuditEntry } from '../../casebook/audit.repository.ts';
import type { CasebookDb } from '../../casebook/casebook.ts';
import type { ApplicationContext } from '../application-context.ts';
import { visitorInWords, type Visitor } from './visitor.ts';

type Sentence<N extends CallName> = (input: ParsedInputOf<N>, output: OutputOf<N>) => string | null;

/** What goes into the list of who changed rights and who took data out, in words; null where this one call does not. */
const audited: { readonly [N in CallName]?: Sentence<N> } = {
  'shop:save-person': ({ initials, role, isRetired }) =>
    isRetired ? `${initials} has left` : `${initials} is ${role} now`,
  'access:invite': ({ label, role }) => `made a code for “${label}” as ${role}`,
  'access:change-device': ({ label, role }) => `“${label}” is a device for ${role}s now`,
  'network:switch': ({ isOpen }) =>
    isOpen ? 'opened Beadwright to tablets and phones' : 'closed Beadwright to tablets and phones',
  'access:sign-in': (_input, { person }) => `signed in as ${person?.initials ?? ''}`,
  'access:sign-out': () => 'signed out',
  // A page after the first belongs to the same export.
  'case:export': ({ after, caseIds }, { count, next }) =>
    after === null ? `exported ${caseIds === null && next !== null ? 'all' : count} cases` : null,
  'training:export': (_input, { count }) => `exported ${count} training results of one person`,
  'case:import': (_input, { imported }) => (imported > 0 ? `imported ${imported} cases` : null),
  'report:make': ({ about }) =>
    about.kind === 'guide-use'
      ? 'took out a report of how the guide did'
      : `took out a report of a ${about.kind}`,
  'spreadsheet:import': ({ isDryRun, fileName }, { fresh }) =>
    isDryRun || fresh === 0 ? null : `imported ${fresh} cases of the spreadsheet “${fileName}”`,
  'backup:restore': (_input, { restored }) => `restored the backup ${restored}`,
};

/** Writes a call that went through into the list, where it belongs there. */
export async function auditCall<N extends CallName>(
  program: ApplicationContext,
  by: Visitor,
  name: N,
  input: ParsedInputOf<N>,
  output: OutputOf<N>,
): Promise<void> {
  const what = (audited[name] as Sentence<N> | undefined)?.(input, output) ?? null;
  if (what !== null) await audit(program, visitorInWords(by), what);
}

export async function audit(program: ApplicationContext, who: string, what: string): Promise<void> {
  await appendAuditEntry(program.casebook.db, {
    id: program.newId(),
    at: program.now().toISOString(),
    who: who.slice(0, 200),
    what: what.slice(0, 300),
  });
}

/** The list keeps what was done, under the new initials, or under nobody's. */
export async function renameInAudit(db: CasebookDb, from: string, to: string | null): Promise<void> {
  const name = to ?? 'somebody removed';
  const asWord = new RegExp(`(?<!\\p{L})${from}(?!\\p{L})`, 'gu');
  for (const { id, who, what } of await listAuditEntriesWith(db, from)) {
    await updateAuditEntry(db, id, {
      who: who.endsWith(` (${from})`) ? `${who.slice(0, -from.length - 2)}(${name})` : who,
      what: outsideQuotes(what, (words) => words.replace(asWord, name)),
    });
  }
}

/** Names of devices and files stand in quotes and are left alone. */
function outsideQuotes(text: string, change: (words: string) => string): string {
  return text
    .split(/(“[^”]*”)/)
    .map((part) => (part.startsWith('“') ? part : change(part)))
    .join('');
}
