import { z } from 'zod';
import { labelSchema } from './common.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

/** A view of the casebook that is looked at again and again: a name, and what is searched and filtered, as in an address. */
export const savedViewsSchema = z
  .array(z.strictObject({ name: labelSchema, filter: z.string().min(1).max(1000) }))
  .max(40)
  .refine(
    (views) => new Set(views.map(({ name }) => name.toLowerCase())).size === views.length,
    texts.viewTwice,
  );

export type SavedView = z.infer<typeof savedViewsSchema>[number];
