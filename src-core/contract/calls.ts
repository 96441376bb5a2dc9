import type { z } from 'zod';
import type { CallName } from './call-names.ts';
import { shopCalls } from './calls/shop-calls.ts';
import { workCalls } from './calls/work-calls.ts';
import { caseCalls } from './calls/case-calls.ts';
import { leadCalls } from './calls/lead-calls.ts';
import { trainingCalls } from './calls/training-calls.ts';
import { upkeepCalls } from './calls/upkeep-calls.ts';
import type { CallDefinition } from './calls/shared.ts';

export type { Caller } from './calls/shared.ts';

/** The one table of calls: name, input, output, and who may call it. Both hosts and the command line are built from it. */
export const calls = {
  ...shopCalls,
  ...workCalls,
  ...caseCalls,
  ...leadCalls,
  ...trainingCalls,
  ...upkeepCalls,
} as const satisfies Record<CallName, CallDefinition>;

export type InputOf<N extends CallName> = z.input<(typeof calls)[N]['input']>;
export type ParsedInputOf<N extends CallName> = z.output<(typeof calls)[N]['input']>;
export type OutputOf<N extends CallName> = z.output<(typeof calls)[N]['output']>;
