import type { Printer, Spool } from '../../../src-core/contract/shop-records.ts';
import {
  chipKey,
  type Chip,
  type ObservationChip,
  type RecordChip,
} from '../../../src-core/words/understand/chips.ts';
import type { GuideBook } from '../../host/guide-book.ts';
import type { IntakeDraft } from './intake-draft.svelte.ts';

/** What a chip says, apart from how it was said: one that was taken off stays off when the text is read again. */
function sayingOf(chip: Chip): string {
  const value = chip.kind === 'tried' ? chip.outcome : 'value' in chip ? chip.value : chip.id;
  return `${chipKey(chip)} ${String(value)}`;
}

/** The chips that free words were read as, and what of them stands in the draft. */
export class OwnWords {
  chips = $state.raw<readonly Chip[]>([]);
  #taken = $state.raw<readonly string[]>([]);
  #droppedByHand: readonly string[] = [];

  readonly #draft: IntakeDraft;
  readonly #book: GuideBook;
  readonly #shop: { readonly printers: readonly Printer[]; readonly spools: readonly Spool[] };

  constructor(
    draft: IntakeDraft,
    book: GuideBook,
    shop: { readonly printers: readonly Printer[]; readonly spools: readonly Spool[] },
  ) {
    this.#draft = draft;
    this.#book = book;
    this.#shop = shop;
  }

  isTaken(chip: Chip): boolean {
    return this.#taken.includes(sayingOf(chip));
  }

  get taken(): readonly Chip[] {
    return this.chips.filter((chip) => this.isTaken(chip));
  }

  get offered(): readonly Chip[] {
    return this.chips.filter((chip) => !this.isTaken(chip));
  }

  /** Takes a new reading of the text: what the old one brought and the new one does not goes out of the draft. */
  show(chips: readonly Chip[]): void {
    for (const chip of this.taken) this.#putOff(chip);
    this.chips = chips;
    this.#taken = [];
    for (const chip of chips)
      if (chip.isSure && !this.#droppedByHand.includes(sayingOf(chip))) this.#putOn(chip);
  }

  take(chip: Chip): void {
    this.#droppedByHand = this.#droppedByHand.filter((saying) => saying !== sayingOf(chip));
    // One printer, one polymer: what is taken instead replaces it.
    for (const other of this.taken) if (chipKey(other) === chipKey(chip)) this.#putOff(other);
    this.#putOn(chip);
  }

  drop(chip: Chip): void {
    this.#droppedByHand = [...this.#droppedByHand, sayingOf(chip)];
    this.#putOff(chip);
  }

  /** Forgets the chips; the draft is cleared elsewhere. */
  forget(): void {
    this.chips = [];
    this.#taken = [];
    this.#droppedByHand = [];
  }

  /** Grades of a taken chip that nobody has said how bad it is; empty where nothing is to be said. */
  gradesOf(chip: Chip): readonly { readonly id: string; readonly label: string }[] {
    if (chip.kind !== 'observation' || chip.value !== null || !this.isTaken(chip)) return [];
    return this.#book.observations.get(chip.id)?.grades?.slice(1) ?? [];
  }

  /** Observations that stand in the draft because of the words. */
  get takenObservations(): readonly string[] {
    return this.taken.flatMap((chip) => (chip.kind === 'observation' ? [chip.id] : []));
  }

  levelOf(chip: ObservationChip): string | null {
    const { complaints, noticed } = this.#draft;
    return [...complaints, ...noticed].find((one) => one.observation === chip.id)?.level ?? null;
  }

  grade(chip: ObservationChip, level: string): void {
    if (this.#isComplaint(chip)) this.#draft.grade(chip.id, level);
    else this.#draft.notice(chip.id, level);
  }

  #isComplaint({ id, value }: ObservationChip): boolean {
    const observation = this.#book.observations.get(id);
    const none = observation?.grades?.[0]?.id ?? 'absent';
    return observation?.complaint === true && value !== none;
  }

  #putOn(chip: Chip): void {
    const draft = this.#draft;
    this.#taken = [...this.#taken, sayingOf(chip)];
    if (chip.kind === 'condition') draft.choose(chip.id, chip.value);
    else if (chip.kind === 'tried') draft.try(chip.id, chip.outcome);
    else if (chip.kind === 'printer' || chip.kind === 'spool') this.#chooseRecord(chip);
    else if (this.#isComplaint(chip)) {
      draft.pick(chip.id, true);
      if (chip.value !== null) draft.grade(chip.id, chip.value);
    } else draft.notice(chip.id, chip.value);
  }

  #chooseRecord({ kind, id }: RecordChip): void {
    const draft = this.#draft;
    if (kind === 'printer') draft.printer = this.#shop.printers.find((one) => one.id === id) ?? draft.printer;
    else draft.spool = this.#shop.spools.find((one) => one.id === id) ?? draft.spool;
  }

  /** Takes out what the chip brought, unless it has been changed by hand since. */
  #putOff(chip: Chip): void {
    const draft = this.#draft;
    this.#taken = this.#taken.filter((saying) => saying !== sayingOf(chip));
    if (chip.kind === 'condition') {
      if (draft.entered[chip.id] === chip.value) draft.choose(chip.id, null);
    } else if (chip.kind === 'tried') draft.try(chip.id, chip.outcome, false);
    else if (chip.kind === 'printer' || chip.kind === 'spool') {
      if (draft[chip.kind]?.id === chip.id) draft[chip.kind] = null;
    } else if (this.#isComplaint(chip)) draft.pick(chip.id, false);
    else draft.notice(chip.id, null, false);
  }
}
