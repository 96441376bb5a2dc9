import { z } from 'zod';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

const money = z.number().min(0).max(1_000_000);

/** What things cost in this shop, in its own money. */
export const shopCostsSchema = z.strictObject({
  /** As the shop writes it: "EUR", "kr". */
  currency: z.string().trim().min(1, texts.nameOfMoney).max(8),
  /** An hour of somebody's work. */
  workPerHour: money.gt(0, texts.hourCostsNothing),
  /** An hour of a machine that stands still. */
  standstillPerHour: money,
  /** Prices of the parts that remedies use, by the guide's name of the part; one that is missing counts nothing. */
  parts: z.record(z.string().max(120), money).default({}),
  /** Whether planning counts in this money; the figures are kept while it does not. */
  isCounted: z.boolean().default(true),
});

export type ShopCosts = z.infer<typeof shopCostsSchema>;
export type ShopCostsInput = z.input<typeof shopCostsSchema>;
