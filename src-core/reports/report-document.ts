import type { MessageValue } from '../words/message.ts';

/** What stands in a table; a list is one of names (tags, files). */
export type Cell = MessageValue | null;

export interface ReportColumn {
  /** Name in CSV and JSON Lines, with the unit where it has one: "minutesLost". */
  readonly key: string;
  readonly label: MessageValue;
  /** Figures stand to the right. */
  readonly isFigure?: boolean;
  /** A share (0–1), shown in per cent in the document. */
  readonly isShare?: boolean;
  /** A day, a time, initials: never broken over two lines. */
  readonly isShort?: boolean;
}

export interface ReportTable {
  readonly name: string;
  readonly columns: readonly ReportColumn[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface ReportPicture {
  /** A JPEG. */
  readonly base64: string;
  readonly caption: MessageValue;
}

export interface ReportSection {
  readonly heading: MessageValue;
  readonly paragraphs?: readonly MessageValue[];
  readonly table?: ReportTable;
  /** Said in the place of a table without rows. */
  readonly ifEmpty?: MessageValue;
  readonly pictures?: readonly ReportPicture[];
}

/** A report before it is set: what stands in it, in no language yet, whatever it becomes. */
export interface ReportDocument {
  readonly title: MessageValue;
  readonly subtitle: MessageValue;
  readonly facts: readonly (readonly [label: MessageValue, value: MessageValue])[];
  readonly sections: readonly ReportSection[];
  /** Under everything: where it is from, when it was made. */
  readonly footer: MessageValue;
}

/** The table of that name; undefined where the report has none. */
export function tableNamed(document: ReportDocument, name: string): ReportTable | undefined {
  return document.sections.find(({ table }) => table?.name === name)?.table;
}
