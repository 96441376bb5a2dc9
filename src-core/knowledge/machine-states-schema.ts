import { z } from 'zod';
import { provenance } from './common-fields.ts';

/** What the machine must be doing while a check is made. */
export const MACHINE_STATES = [
  'any',
  'off',
  'cold',
  'motors-off',
  'hot',
  'printing',
  'opened',
  'part-in-hand',
] as const;

const minutes = z.strictObject({ value: z.number().min(0).max(600), ...provenance });

/** What it takes to bring a machine into a state. In one file only. */
export const machineStatesSchema = z.strictObject({
  /** One-off minutes of work; checks in the same state share them. A state left out takes none. */
  preparation: z.partialRecord(z.enum(MACHINE_STATES), minutes),
  /** Until a hot end is safe to touch; it cools by itself, so it counts as waiting. */
  cooling: minutes,
});

export type MachineStates = z.infer<typeof machineStatesSchema>;
