import type { GeneralNetwork } from '../general/query-general.ts';

/** A plain discrete network with names, as interchange formats hold it. Parents come before children. */
export interface NamedNetwork extends GeneralNetwork {
  readonly name: string;
  /** outcomes[variable][state] */
  readonly outcomes: readonly (readonly string[])[];
}
