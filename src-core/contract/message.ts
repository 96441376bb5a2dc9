import { z } from 'zod';
import type { Message, Words } from '../words/message.ts';
import { noteSchema } from './common.ts';

const decimalsSchema = z.number().int().min(0).max(6);
const plainValueSchema = z.union([
  z.string().max(200),
  z.number(),
  z.strictObject({ amount: z.number(), decimals: decimalsSchema }),
  z.strictObject({ celsius: z.number(), decimals: decimalsSchema, isDifference: z.boolean().optional() }),
]);
const textIdSchema = z
  .string()
  .regex(/^[a-z][A-Za-z0-9]{0,39}\.[a-z][A-Za-z0-9]{0,59}$/, 'not the id of a text');
const nameSchema = z.string().max(40);
/** A message among the values of another. */
const innerMessageSchema = z.strictObject({
  id: textIdSchema,
  values: z.record(nameSchema, plainValueSchema).optional(),
});
/** See `src-core/words/message.ts`. */
export const messageSchema: z.ZodType<Message, Message> = z.strictObject({
  id: textIdSchema,
  values: z
    .record(nameSchema, z.union([plainValueSchema, innerMessageSchema, z.array(innerMessageSchema).max(20)]))
    .optional(),
});
/** A message, or several sentences; words as they stand in entries of before 28 November 2026. */
export const wordsSchema: z.ZodType<Words, Words> = z.union([
  noteSchema,
  messageSchema,
  z.array(messageSchema).max(20),
]);
