import { z } from 'zod';
import type { Filled, Message, Words } from '../words/message.ts';
import { noteSchema } from './common.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

const decimalsSchema = z.number().int().min(0).max(6);
const plainValueSchema = z.union([
  z.string().max(2000),
  z.number(),
  z.strictObject({ amount: z.number(), decimals: decimalsSchema }),
  z.strictObject({ day: z.union([z.iso.date(), z.iso.datetime()]) }),
  z.strictObject({ moment: z.iso.datetime(), timeZone: z.string().max(60) }),
  z.strictObject({ month: z.string().regex(/^(\d{4}-)?(0[1-9]|1[0-2])$/) }),
  z.strictObject({
    celsius: z.number(),
    to: z.number().optional(),
    decimals: decimalsSchema,
    isDifference: z.boolean().optional(),
  }),
]);
const textIdSchema = z.string().regex(/^[a-z][A-Za-z0-9]{0,39}\.[a-z][A-Za-z0-9]{0,59}$/, texts.noTextId);
const nameSchema = z.string().max(40);
const guideTextSchema = z.string().max(4000);
const MOST_MESSAGES = 100;

/** Messages among the values of messages, so deep and no deeper: what comes in from outside is bounded. */
function messageOfDepth(depth: number): z.ZodType<Message, Message> {
  if (depth === 0)
    return z.strictObject({ id: textIdSchema, values: z.record(nameSchema, plainValueSchema).optional() });
  const value = valueAround(messageOfDepth(depth - 1));
  return z.strictObject({ id: textIdSchema, values: z.record(nameSchema, value).optional() });
}

function valueAround(inner: z.ZodType<Message, Message>) {
  const several = z.array(inner).max(MOST_MESSAGES);
  const listed = z.array(z.union([z.string().max(2000), inner])).max(MOST_MESSAGES);
  const filled = z.strictObject({
    guide: guideTextSchema,
    places: z.record(nameSchema, z.union([plainValueSchema, inner])),
  });
  return z.union([plainValueSchema, inner, listed, filled, z.strictObject({ series: several })]);
}

/** See `src-core/words/message.ts`. */
export const messageSchema = messageOfDepth(5);
/** A text of the guide, and what stands in its places. */
const filledSchema: z.ZodType<Filled, Filled> = z.strictObject({
  guide: guideTextSchema,
  places: z.record(nameSchema, valueAround(messageSchema)),
});
/** A message, several sentences, or a text of the guide with figures; words as they stand in entries of before 28 November 2026. */
export const wordsSchema: z.ZodType<Words, Words> = z.union([
  noteSchema,
  messageSchema,
  z.array(messageSchema).max(20),
  filledSchema,
]);
