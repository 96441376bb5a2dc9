import { z } from 'zod';
import { conditionsSchema, idSchema, initialsSchema, labelSchema, noteSchema } from '../contract/common.ts';
import { ACTION_KINDS } from '../contract/recurrence-choices.ts';
import { ROLES } from '../contract/roles.ts';

/** The invented shop as resources/demo-shop.yaml describes it. */
export const demoShopSchema = z.strictObject({
  seed: z.number().int(),
  people: z.array(z.strictObject({ initials: initialsSchema, role: z.enum(ROLES) })).min(1),
  printers: z
    .array(
      z.strictObject({
        label: labelSchema,
        model: labelSchema,
        note: noteSchema,
        hoursPerMonth: z.number().gt(0),
        casesPerMonth: z.number().gt(0),
        conditions: conditionsSchema,
        /** Factor on the odds of causes that come back on this machine. */
        habits: z.record(idSchema, z.number().gt(0)),
        /** What it has been since something was changed there, so many whole months before the end of the year. */
        since: z
          .strictObject({
            monthsAgo: z.number().int().min(1).max(11),
            casesPerMonth: z.number().gt(0),
            habits: z.record(idSchema, z.number().gt(0)),
          })
          .optional(),
        /** How often (0–1) somebody says that this was changed before the trouble. */
        lastChanges: z.record(idSchema, z.number().gt(0).max(1)).default({}),
      }),
    )
    .min(1),
  spools: z
    .array(
      z.strictObject({
        label: labelSchema,
        polymer: idSchema,
        filler: idSchema,
        fillerPercent: z.number().optional(),
        storage: idSchema,
        supplier: z.string().max(80).default(''),
        batch: z.string().max(80).default(''),
      }),
    )
    .min(1),
  /** Print profiles in use. */
  profiles: z.array(labelSchema).min(1),
  /** What was done to keep the printers well. */
  maintenance: z.array(
    z.strictObject({
      printer: labelSchema,
      task: idSchema,
      daysAgo: z.number().min(0).max(365),
      by: initialsSchema,
      part: z.string().max(80).default(''),
    }),
  ),
  /** What the shop did about what comes back. Days are counted from the end of the year. */
  actions: z.array(
    z.strictObject({
      title: labelSchema,
      kind: z.enum(ACTION_KINDS),
      owner: initialsSchema,
      expectedRatio: z.number(),
      printer: labelSchema,
      cause: idSchema,
      openedDaysAgo: z.number().int().min(0),
      dueInDays: z.number().int().nullable().default(null),
      doneDaysAgo: z.number().int().min(0).optional(),
      snoozedForDays: z.number().int().min(1).optional(),
      dismissedBecause: noteSchema.optional(),
    }),
  ),
});
export type DemoShop = z.infer<typeof demoShopSchema>;
