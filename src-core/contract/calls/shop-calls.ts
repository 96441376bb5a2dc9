import { z } from 'zod';
import { shopCostsSchema } from '../shop-costs.ts';
import { benchSchema } from '../bench-view.ts';
import { idSchema, recordIdSchema, timeSchema } from '../common.ts';
import {
  causeLooksSchema,
  observationWeightsSchema,
  statementsQuestionSchema,
} from '../guide-differential.ts';
import { guideSchema } from '../guide-view.ts';
import {
  displaySchema,
  personInputSchema,
  printerInputSchema,
  recordToDeleteSchema,
  settingRevisionSchema,
  shopSchema,
  spoolInputSchema,
} from '../shop-records.ts';
import {
  roomClimateSchema,
  spoolEventSchema,
  spoolQuestionSchema,
  spoolReportSchema,
  storageQuestionSchema,
  storageReportSchema,
} from '../spool-life.ts';
import { everywhere, nothing, screens } from './shared.ts';

const hostInfoSchema = z.strictObject({
  host: z.enum(['desktop', 'station', 'command']),
  programVersion: z.string(),
  engineVersion: z.string(),
  knowledgeVersion: z.string(),
  casebookFile: z.string(),
});

/** What every screen begins with: the host, the guide, the bench, printers, spools and people. */
export const shopCalls = {
  'host:info': { input: nothing, output: hostInfoSchema, callers: everywhere },
  'guide:read': { input: nothing, output: guideSchema, callers: everywhere },
  'guide:cause': { input: z.strictObject({ cause: idSchema }), output: causeLooksSchema, callers: screens },
  'guide:observation': {
    input: z.strictObject({ observation: idSchema }),
    output: observationWeightsSchema,
    callers: screens,
  },
  /** The statements of the form by id, those that fit best first. */
  'guide:statements': { input: statementsQuestionSchema, output: z.array(idSchema), callers: screens },
  'bench:read': { input: nothing, output: benchSchema, callers: screens },
  'shop:read': { input: nothing, output: shopSchema, callers: everywhere },
  'shop:save-printer': { input: printerInputSchema, output: shopSchema, callers: screens },
  'shop:save-spool': { input: spoolInputSchema, output: shopSchema, callers: screens },
  'shop:save-person': { input: personInputSchema, output: shopSchema, callers: screens },
  /** A printer or spool that no case names, with its own log; one that a case names is refused. */
  'shop:delete-record': { input: recordToDeleteSchema, output: shopSchema, callers: screens },
  /** Null: plan in minutes only. */
  'shop:save-costs': {
    input: z.strictObject({ costs: shopCostsSchema.nullable(), revision: settingRevisionSchema }),
    output: shopSchema,
    callers: screens,
  },
  'shop:save-climate': {
    input: z.strictObject({ climate: roomClimateSchema, revision: settingRevisionSchema }),
    output: shopSchema,
    callers: screens,
  },
  'shop:save-display': {
    input: z.strictObject({ display: displaySchema, revision: settingRevisionSchema }),
    output: shopSchema,
    callers: screens,
  },
  'spool:read': { input: spoolQuestionSchema, output: spoolReportSchema, callers: screens },
  'spool:storage': { input: storageQuestionSchema, output: storageReportSchema, callers: screens },
  'spool:log': {
    input: z.strictObject({
      spoolId: recordIdSchema,
      event: spoolEventSchema,
      /** When it happened, if not just now: never later than now. */
      at: timeSchema.nullable().default(null),
      /** The revision of the report that the caller looked at; another answers "stale" with the report as it stands. */
      revision: z.number().int().min(0),
    }),
    output: spoolReportSchema,
    callers: screens,
  },
} as const;
