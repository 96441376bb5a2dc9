/** Where in the text something was said. */
export interface Place {
  readonly from: number;
  readonly to: number;
}

interface AnyChip {
  /** The words it came from, as they were written. */
  readonly said: string;
  readonly places: readonly Place[];
  /** How surely the words say this, 0 to 1. */
  readonly score: number;
  /** Said clearly enough to be taken over; otherwise it is offered ("did you mean"). */
  readonly isSure: boolean;
}

/** Something seen, heard, measured or compared. */
export interface ObservationChip extends AnyChip {
  readonly kind: 'observation';
  readonly id: string;
  /** A level of the observation; null where it has grades and nobody said how bad it is. */
  readonly value: string | null;
}

/** A known circumstance. */
export interface ConditionChip extends AnyChip {
  readonly kind: 'condition';
  readonly id: string;
  /** A value's id, or a number in the circumstance's unit. */
  readonly value: string | number;
}

interface NamedChip<K extends string> extends AnyChip {
  readonly kind: K;
  /** The record's id. */
  readonly id: string;
}
/** A printer or spool of the shop. */
export type RecordChip = NamedChip<'printer'> | NamedChip<'spool'>;

/** A remedy that was tried already. */
export interface TriedChip extends AnyChip {
  readonly kind: 'tried';
  readonly id: string;
  readonly outcome: TriedOutcome;
}
export type TriedOutcome = 'better' | 'not-cured';

export type Chip = ObservationChip | ConditionChip | RecordChip | TriedChip;

/** Two chips of one key say the same thing, or contradict each other about one thing. */
export function chipKey(chip: Chip): string {
  return chip.kind === 'printer' || chip.kind === 'spool' ? chip.kind : `${chip.kind} ${chip.id}`;
}
