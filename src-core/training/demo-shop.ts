import { z } from 'zod';
import { conditionsSchema, idSchema, initialsSchema, labelSchema, noteSchema } from '../contract/common.ts';
import { ROLES } from '../contract/shop-records.ts';

/** The invented shop as resources/demo-shop.yaml describes it. */
export const demoShopSchema = z.strictObject({
  seed: z.number().int(),
  people: z.array(z.strictObject({ initials: initialsSchema, role: z.enum(ROLES) })).min(1),
  printers: z
    .array(
      z.strictObject({
        label: labelSchema,
        note: noteSchema,
        hoursPerMonth: z.number().gt(0),
        casesPerMonth: z.number().gt(0),
        conditions: conditionsSchema,
        /** Factor on the odds of causes that come back on this machine. */
        habits: z.record(idSchema, z.number().gt(0)),
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
      }),
    )
    .min(1),
});
export type DemoShop = z.infer<typeof demoShopSchema>;
