import type { OutputOf } from '../../../src-core/contract/calls.ts';
import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import { MOST_TAGS } from '../../../src-core/contract/tag-limits.ts';
import { isSameTag, withTags } from '../../../src-core/session/tags.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import type { Message } from '../../../src-core/words/message.ts';
import { listTags } from '../../casebook/case-list.repository.ts';
import { appendEvent, readCase } from '../../casebook/case.repository.ts';
import { prepareAppend } from '../append-to-case.ts';
import { loadCase, type StoredCase } from '../case-reader.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { faultOfWords } from '../record-checks.ts';

/**
 * Several cases were of another printer or spool, or get or lose tags: each gets an event of its own. One that somebody else
 * has changed since it was looked at is left as it is and named; `back` is what the same call takes to undo the rest.
 */
export const caseReassign: Handler<'case:reassign'> = async (program, { cases }, by) => {
  const { db } = program.casebook;
  const printers = await namesOf('printers');
  const spools = await namesOf('spools');
  const known = cases.some(({ addTags }) => addTags) ? (await listTags(db)).map(({ tag }) => tag) : [];
  const answer: OutputOf<'case:reassign'> = { back: [], overtaken: [] };
  for (const asked of cases) {
    const { caseId, revision } = asked;
    const printer = named(printers, asked.printerId, refusals.noPrinterHere);
    const spool = named(spools, asked.spoolId, refusals.noSpoolHere);
    if (!(await readCase(db, caseId))) throw new DomainError('not-found', refusals.oneCaseMissing());
    const before = await loadCase(program, caseId);
    const { number } = before.record;
    const changes = [
      placeChange(before, printer, spool),
      tagChange(before.step.moment.context.tags, asked, known),
    ].filter((one) => one !== null);
    if (changes.length === 0) continue;
    if (before.log.length !== revision) {
      answer.overtaken.push({ caseId, number });
      continue;
    }
    let back: Back = { caseId, revision };
    for (const { event, undoes } of changes) {
      const now = back.revision === revision ? before : await loadCase(program, caseId);
      const append = await prepareAppend(program, caseId, now, event, by);
      if ((await appendEvent(db, append)) === 'stale') {
        answer.overtaken.push({ caseId, number });
        break;
      }
      back = { ...back, ...undoes, revision: append.logged.seq };
    }
    if (back.revision !== revision) answer.back.push(back);
  }
  return answer;

  async function namesOf(table: 'printers' | 'spools'): Promise<ReadonlyMap<string, string>> {
    const rows = await db.selectFrom(table).select(['id', 'label']).execute();
    return new Map(rows.map(({ id, label }) => [id, label]));
  }
};

type Back = OutputOf<'case:reassign'>['back'][number];
type Tagged = Extract<CaseEvent, { kind: 'tagged' }>;
type NamedRecord = NonNullable<Extract<CaseEvent, { kind: 'reassigned' }>['printer']>;
/** An entry that a case still lacks, and what takes it back. */
interface Change {
  readonly event: CaseEvent;
  readonly undoes: Partial<Back>;
}

/** Another printer or spool, or null where it has been of these all along; what is left out stays. */
function placeChange(
  { record: { printer_id, spool_id } }: StoredCase,
  printer: NamedRecord | null | undefined,
  spool: NamedRecord | null | undefined,
): Change | null {
  const isMoved =
    (printer !== undefined && (printer?.id ?? null) !== printer_id) ||
    (spool !== undefined && (spool?.id ?? null) !== spool_id);
  if (!isMoved) return null;
  return {
    event: {
      kind: 'reassigned',
      ...(printer !== undefined && { printer }),
      ...(spool !== undefined && { spool }),
    },
    undoes: {
      ...(printer !== undefined && { printerId: printer_id }),
      ...(spool !== undefined && { spoolId: spool_id }),
    },
  };
}

/** What changes of a case's tags, or null. A tag that the shop has already is written as there, unless that is what is taken off. */
function tagChange(
  tags: readonly string[],
  { addTags = [], removeTags = [] }: Pick<Back, 'addTags' | 'removeTags'>,
  known: readonly string[],
): Change | null {
  const kept = known.filter((tag) => !removeTags.includes(tag));
  const on = addTags.map((tag) => kept.find((one) => isSameTag(one, tag)) ?? tag);
  const after = withTags(tags, on, removeTags);
  if (after.length > MOST_TAGS) throw new DomainError('refused', refusals.mostTags({ most: MOST_TAGS }));
  const event: Tagged = {
    kind: 'tagged',
    on: after.filter((tag) => !tags.includes(tag)),
    off: tags.filter((tag) => !after.includes(tag)),
  };
  const fault = faultOfWords(event);
  if (fault !== null) throw new DomainError('bad-request', fault);
  if (event.on.length + event.off.length === 0) return null;
  return { event, undoes: { addTags: event.off, removeTags: event.on } };
}

function named(names: ReadonlyMap<string, string>, id: string | null | undefined, gone: () => Message) {
  if (id === undefined || id === null) return id;
  const label = names.get(id);
  if (label === undefined) throw new DomainError('not-found', gone());
  return { id, label };
}
