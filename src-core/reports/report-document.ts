export type Cell = string | number | null;

export interface ReportColumn {
  /** Name in CSV and JSON Lines, with the unit where it has one: "minutesLost". */
  readonly key: string;
  readonly label: string;
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
  readonly caption: string;
}

export interface ReportSection {
  readonly heading: string;
  readonly paragraphs?: readonly string[];
  readonly table?: ReportTable;
  /** Said in the place of a table without rows. */
  readonly ifEmpty?: string;
  readonly pictures?: readonly ReportPicture[];
}

/** A report before it is set: what stands in it, whatever it becomes. */
export interface ReportDocument {
  readonly title: string;
  readonly subtitle: string;
  readonly facts: readonly (readonly [label: string, value: string])[];
  readonly sections: readonly ReportSection[];
  /** Under everything: where it is from, when it was made. */
  readonly footer: string;
}

/** The table of that name; undefined where the report has none. */
export function tableNamed(document: ReportDocument, name: string): ReportTable | undefined {
  return document.sections.find(({ table }) => table?.name === name)?.table;
}
