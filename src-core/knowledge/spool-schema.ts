import { z } from 'zod';
import { idSchema, label, provenance, text } from './common-fields.ts';
import { rangeSchema } from './material-schema.ts';

/** A drying agent: how much water it holds in equilibrium with air of 25 °C. */
export const desiccantSchema = z.strictObject({
  id: idSchema,
  label,
  /** Points of the isotherm, drier air first: relative humidity in percent, gram of water per 100 g of dry agent. */
  holds: z
    .array(z.strictObject({ atPercentRh: z.number().min(0).max(100), gPer100g: z.number().min(0) }))
    .min(2),
  regenerate: text,
  ...provenance,
});

/** A wall or film: water that passes a square metre in a day in the standard test at 38 °C and 90 % relative humidity. */
export const barrierSchema = z.strictObject({ id: idSchema, label, gPerM2Day: rangeSchema });

/** What the filament is wound on, and the highest temperature it bears for hours. */
export const spoolBodySchema = z.strictObject({
  id: idSchema,
  label,
  highestTempC: z.strictObject({ value: z.number().min(30).max(300), ...provenance }),
  /** Drying at that temperature where the filament's own recipe is hotter: the recipe's hours do not hold there. */
  slowDryingHours: z
    .strictObject({ low: z.number().gt(0).max(72), high: z.number().gt(0).max(72), ...provenance })
    .refine(({ low, high }) => low < high, 'write low < high')
    .optional(),
});

/** Where a spool may be, and the air it has there: that of the room, a closed one of its own, or a dryer's. */
export const spoolPlaceSchema = z.strictObject({
  id: idSchema,
  label,
  /** The value of the condition `storage` that it means for a case. */
  storage: idSchema,
  air: z.enum(['room', 'closed', 'dryer']),
  /** Relative humidity inside a closed place, percent: with fresh and with spent desiccant. */
  closedHumidityPercent: z
    .strictObject({ fresh: z.number().min(0).max(100), spent: z.number().min(0).max(100), ...provenance })
    .optional(),
});

export type Desiccant = z.infer<typeof desiccantSchema>;
export type Barrier = z.infer<typeof barrierSchema>;
export type SpoolBody = z.infer<typeof spoolBodySchema>;
export type SpoolPlace = z.infer<typeof spoolPlaceSchema>;
