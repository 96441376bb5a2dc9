import { z } from 'zod';

/** Kebab-case trade term. */
export const idSchema = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'an id is lower-case words joined by hyphens, like "wet-filament"');

export const text = z.string().trim().min(1).max(2000);
export const label = z.string().trim().min(1).max(120);

/** Where a number comes from: published with its source, common practice, or our own estimate. */
export const sourceSchema = z
  .string()
  .regex(
    /^(common practice|estimate|published: .{8,})$/,
    'write "common practice", "estimate" or "published: author, title, year"',
  );

export const confidenceSchema = z.enum(['low', 'fair', 'high']);

/** Goes with every value of the guide. */
export const provenance = {
  source: sourceSchema,
  confidence: confidenceSchema.optional(),
  note: text.optional(),
};

/** Other words people use for it: US and British spelling, shop slang, common misspellings; searched with the label. */
export const alsoCalledSchema = z.array(label).max(40).default([]);

/** Ids that it had before; old cases and files still read. */
export const formerlySchema = z.array(idSchema).max(20).default([]);
