import { z } from 'zod';
import { workIdSchema } from '../watch.ts';
import { LARGEST_PIECE_BYTES } from '../file-calls.ts';
import { bytesSchema, recordIdSchema } from '../common.ts';
import { flowQuestionSchema, flowSheetSchema } from '../flow-sheet.ts';
import { fitQuestionSchema, fitReportSchema } from '../material-fit.ts';
import { jobMachineSchema, jobReportSchema, temperatureReportSchema } from '../job-report.ts';
import { nothing, screens } from './shared.ts';
import { contractTexts } from '../../words/en/contract.ts';

const { texts } = contractTexts;

/** Job files, logs, sheets, and long work that is looked after. */
export const workCalls = {
  /** A job file comes in pieces, so that it may be of any size, with progress, and be dropped half-way. */
  'job:begin': {
    input: jobMachineSchema,
    output: z.strictObject({ jobId: recordIdSchema }),
    callers: screens,
  },
  'job:piece': {
    input: z.strictObject({
      jobId: recordIdSchema,
      /** Place of the first byte in the file: a piece that comes twice or out of turn is refused. */
      at: z.number().int().min(0),
      /** As text they are characters U+0000 to U+00FF. */
      bytes: z.union([
        bytesSchema(LARGEST_PIECE_BYTES).refine(({ length }) => length > 0, texts.emptyFile),
        z.string().min(1).max(LARGEST_PIECE_BYTES),
      ]),
    }),
    output: z.strictObject({ received: z.number().int() }),
    callers: screens,
  },
  'job:end': { input: z.strictObject({ jobId: recordIdSchema }), output: jobReportSchema, callers: screens },
  'job:drop': { input: z.strictObject({ jobId: recordIdSchema }), output: nothing, callers: screens },
  'log:read': {
    input: z.strictObject({ text: z.string().max(20_000_000) }),
    output: temperatureReportSchema,
    callers: screens,
  },
  'flow:sheet': { input: flowQuestionSchema, output: flowSheetSchema, callers: screens },
  /** How far work under way is; null when it is over. */
  'work:look': {
    input: z.strictObject({ workId: workIdSchema }),
    output: z.strictObject({ share: z.number().min(0).max(1).nullable() }),
    callers: screens,
  },
  'work:stop': { input: z.strictObject({ workId: workIdSchema }), output: nothing, callers: screens },
  'fit:materials': { input: fitQuestionSchema, output: fitReportSchema, callers: screens },
} as const;
