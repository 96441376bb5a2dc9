import type { RemedyRow } from './repair-tables.ts';

export interface FoundOrder {
  readonly order: readonly RemedyRow[];
  readonly expectedMinutes: number;
  readonly isOptimal: boolean;
}
