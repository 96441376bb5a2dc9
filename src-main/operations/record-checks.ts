import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { Printer, Spool } from '../../src-core/contract/shop-records.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { faultOfCondition } from '../../src-core/session/finding-level.ts';
import { faults } from '../../src-core/words/en/faults.ts';
import type { Message } from '../../src-core/words/message.ts';
import { isBeforeOurTime, isStillToCome } from './still-to-come.ts';

/** Letters that nobody sees, and marks that turn the words around them about. */
const UNSEEN = /[\u061c\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/u;
const ALL_UNSEEN = new RegExp(UNSEEN, 'gu');

/** What is wrong with a printer that is to be kept, or null; the same for one typed in and one imported. */
export function faultOfPrinter(
  knowledge: Knowledge,
  { label, conditions }: Pick<Printer, 'label' | 'conditions'>,
): Message | null {
  const fault = faultOfLabel(label) ?? faultOfConditions(knowledge, conditions);
  return fault === null ? null : faults.ofPrinter({ label, why: fault });
}

/** What is wrong with a spool that is to be kept, or null. */
export function faultOfSpool(
  knowledge: Knowledge,
  spool: Pick<Spool, 'label' | 'polymer' | 'filler' | 'storage' | 'body' | 'openedAt' | 'supplier' | 'batch'>,
  now: Date,
): Message | null {
  const { label, polymer, filler, storage, body, openedAt, supplier, batch } = spool;
  const fault =
    faultOfLabel(label) ??
    faultOfLabel(supplier) ??
    faultOfLabel(batch) ??
    faultOfConditions(knowledge, { polymer, filler, ...(storage ? { storage } : {}) }) ??
    (knowledge.spoolBodies.has(body) ? null : faults.noSuchSpoolBody({ id: body })) ??
    (openedAt && isStillToCome(openedAt, now) ? faults.openedInFuture() : null) ??
    (openedAt && isBeforeOurTime(openedAt) ? faults.openedInYear({ year: openedAt.slice(0, 4) }) : null);
  return fault === null ? null : faults.ofSpool({ label, why: fault });
}

/** What is wrong with the words of an event that is to be written, or null. */
export function faultOfWords(event: CaseEvent): Message | null {
  const names =
    event.kind === 'closed'
      ? event.causes.flatMap((one) => ('named' in one ? [one.named] : []))
      : event.kind === 'parked' || event.kind === 'handed-over'
        ? [event.part ?? '']
        : event.kind === 'opened'
          ? [event.intake.profile ?? '', ...(event.intake.files ?? [])]
          : event.kind === 'profile-set'
            ? [event.profile ?? '']
            : event.kind === 'tagged'
              ? event.on
              : [];
  for (const name of names) {
    const fault = faultOfLabel(name);
    if (fault) return fault;
  }
  if (event.kind === 'noted' && event.text.replaceAll(ALL_UNSEEN, '').trim() === '')
    return faults.emptyNote();
  return null;
}

function faultOfConditions(
  knowledge: Knowledge,
  conditions: Readonly<Record<string, string | number>>,
): Message | null {
  for (const [id, value] of Object.entries(conditions)) {
    const fault = faultOfCondition(knowledge, id, value);
    if (fault) return fault;
  }
  return null;
}

function faultOfLabel(label: string): Message | null {
  return UNSEEN.test(label) ? faults.unseenLetters() : null;
}

/** A name that no other record in use has: "Heron", or "Heron (2)" where there is one already. */
export function freeLabel(
  label: string,
  taken: readonly { readonly label: string; readonly isRetired: boolean }[],
): string {
  const isTaken = (name: string) =>
    taken.some((one) => !one.isRetired && one.label.toLowerCase() === name.toLowerCase());
  if (!isTaken(label)) return label;
  for (let number = 2; ; number++) {
    const name = `${label.slice(0, 74)} (${number})`;
    if (!isTaken(name)) return name;
  }
}
