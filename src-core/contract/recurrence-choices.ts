/** By what the lead holds cases against each other, and what an action can be. No schemas: screens share these lists. */
export const GROUPINGS = [
  'printer',
  'nozzle',
  'material',
  'spool',
  'batch',
  'profile',
  'change',
  'practice',
  'shift',
  'month',
] as const;
export type Grouping = (typeof GROUPINGS)[number];

/** What kind of thing is done about a finding. */
export const ACTION_KINDS = ['habit', 'maintenance', 'purchase'] as const;
export type ActionKind = (typeof ACTION_KINDS)[number];

/** Stands for every cause together. */
export const ANY_FAULT = 'any-fault';
