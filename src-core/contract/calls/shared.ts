import { z } from 'zod';
import { recordIdSchema } from '../common.ts';

export type Caller = 'desktop' | 'station' | 'command';

export interface CallDefinition {
  readonly input: z.ZodType;
  readonly output: z.ZodType;
  readonly callers: readonly Caller[];
}

export const everywhere = ['desktop', 'station', 'command'] as const;
export const screens = ['desktop', 'station'] as const;
export const atTheStation = ['station'] as const;
export const nothing = z.strictObject({});
export const thePerson = z.strictObject({ personId: recordIdSchema });
export const theCase = z.strictObject({ caseId: recordIdSchema });
