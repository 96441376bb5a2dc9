import { z } from 'zod';
import { LARGEST_PHOTO_BYTES } from '../photo-limits.ts';
import { pastCaseSchema } from '../bench-view.ts';
import { caseEventSchema, intakeSchema } from '../case-event.ts';
import { caseViewSchema, whyCandidateSchema, whyCheckSchema } from '../case-view.ts';
import {
  caseFilterSchema,
  caseListSchema,
  profileListSchema,
  tagListSchema,
  reassignedSchema,
  reassignmentSchema,
  timelineSchema,
} from '../casebook-view.ts';
import { messageSchema } from '../message.ts';
import { binSchema } from '../bin-view.ts';
import { bytesSchema, idSchema, initialsSchema, photoHashSchema, recordIdSchema } from '../common.ts';
import {
  importListSchema,
  spreadsheetFileSchema,
  spreadsheetLookSchema,
  spreadsheetMappingSchema,
  spreadsheetReportSchema,
} from '../spreadsheet-view.ts';
import { savedViewsSchema } from '../saved-views.ts';
import { thenAndNowSchema } from '../then-and-now-view.ts';
import { secondThoughtsSchema } from '../second-thoughts-view.ts';
import { settingRevisionSchema, shopSchema } from '../shop-records.ts';
import { everywhere, nothing, screens, theCase, thePerson } from './shared.ts';

const savedViewListSchema = z.strictObject({ views: savedViewsSchema, revision: settingRevisionSchema });

/** Cases, from the first complaint to the bin, and where else they come from. */
export const caseCalls = {
  'case:open': {
    input: intakeSchema.extend({
      /** The case's id, of the screen's making: sent a second time it answers "stale" with the case that is there. */
      caseId: recordIdSchema.optional(),
    }),
    output: caseViewSchema,
    callers: screens,
  },
  'case:view': { input: theCase, output: caseViewSchema, callers: everywhere },
  'case:send': {
    input: z.strictObject({
      caseId: recordIdSchema,
      /** The revision the caller looked at; a mismatch answers "stale" with the current view. */
      revision: z.number().int().min(1),
      event: caseEventSchema,
    }),
    output: caseViewSchema,
    callers: screens,
  },
  /** Keeps a photo and says its hash; an event `photographed` then puts it into a case. */
  'photo:keep': {
    input: z.union([
      z.strictObject({ bytes: bytesSchema(LARGEST_PHOTO_BYTES) }),
      // As pages send it that were opened before photos went as bytes.
      z.strictObject({ base64: z.base64().max(2_100_000) }),
    ]),
    output: z.strictObject({ photo: photoHashSchema }),
    callers: screens,
  },
  'case:why-candidate': {
    input: z.strictObject({ caseId: recordIdSchema, cause: idSchema }),
    output: whyCandidateSchema,
    callers: screens,
  },
  'case:why-check': {
    input: z.strictObject({ caseId: recordIdSchema, observation: idSchema }),
    output: whyCheckSchema,
    callers: screens,
  },
  'case:second-thoughts': { input: theCase, output: secondThoughtsSchema.nullable(), callers: screens },
  /** Closed cases of a printer or a spool, the latest first. */
  'case:last-time': {
    input: z.strictObject({ printerId: recordIdSchema.nullable(), spoolId: recordIdSchema.nullable() }),
    output: z.strictObject({ cases: z.array(pastCaseSchema) }),
    callers: screens,
  },
  'case:list': { input: caseFilterSchema, output: caseListSchema, callers: everywhere },
  /** Printer, spool or tags of several cases; the same call takes it back. */
  'case:reassign': { input: reassignmentSchema, output: reassignedSchema, callers: screens },
  /** Two cases were one; answers the one that stays. */
  'case:merge': {
    input: theCase.extend({
      revision: z.number().int().min(1),
      into: z.strictObject({ caseId: recordIdSchema, revision: z.number().int().min(1) }),
    }),
    output: caseViewSchema,
    callers: screens,
  },
  /** Takes a merge back; answers the one that had been merged. */
  'case:part': {
    input: theCase.extend({ revision: z.number().int().min(1) }),
    output: caseViewSchema,
    callers: screens,
  },
  /** "This one came from that one"; null takes it back. */
  'case:link': {
    input: theCase.extend({ revision: z.number().int().min(1), from: recordIdSchema.nullable() }),
    output: caseViewSchema,
    callers: screens,
  },
  'case:timeline': { input: theCase, output: timelineSchema, callers: screens },
  'case:then-and-now': { input: theCase, output: thenAndNowSchema, callers: screens },
  'case:export': {
    input: z.strictObject({
      caseIds: z.array(recordIdSchema).max(10_000).nullable().default(null),
      /** `next` of the page before. */
      after: recordIdSchema.nullable().default(null),
    }),
    output: z.strictObject({
      jsonLines: z.string(),
      count: z.number().int(),
      /** Where the next page begins; null after the last. A page holds some megabytes. */
      next: recordIdSchema.nullable(),
      /** Entries that this version cannot read; the lines carry them as they are. */
      setAside: z.array(
        z.strictObject({ number: z.number().int(), seq: z.number().int(), fault: messageSchema }),
      ),
    }),
    callers: everywhere,
  },
  'case:import': {
    input: z.strictObject({
      jsonLines: z.string().max(64 * 1024 * 1024),
      /** Says what would come in, and writes nothing. */
      isDryRun: z.boolean().default(false),
    }),
    output: z.strictObject({
      imported: z.number().int(),
      /** Already here under the same id. */
      known: z.number().int(),
      faults: z.array(z.strictObject({ line: z.number().int(), message: messageSchema })),
    }),
    callers: everywhere,
  },
  'case:tags': { input: nothing, output: tagListSchema, callers: screens },
  'case:profiles': { input: nothing, output: profileListSchema, callers: screens },
  'case:views': { input: nothing, output: savedViewListSchema, callers: screens },
  'case:save-views': { input: savedViewListSchema, output: savedViewListSchema, callers: screens },
  /** Moves a case into the bin, where it stays for 30 days. */
  'case:delete': {
    input: theCase.extend({
      /** The revision that the caller looked at. */
      revision: z.number().int().min(1),
    }),
    output: binSchema,
    callers: screens,
  },
  'bin:list': { input: nothing, output: binSchema, callers: screens },
  'bin:restore': { input: theCase, output: binSchema, callers: screens },
  'bin:empty': { input: nothing, output: binSchema, callers: screens },
  /** What is in a shop's spreadsheet of old cases, and how its columns may be meant. */
  'spreadsheet:look': { input: spreadsheetFileSchema, output: spreadsheetLookSchema, callers: screens },
  'spreadsheet:import': {
    input: spreadsheetFileSchema.extend({
      mapping: spreadsheetMappingSchema,
      /** Only says what would change. */
      isDryRun: z.boolean(),
    }),
    output: spreadsheetReportSchema,
    callers: screens,
  },
  'spreadsheet:imports': { input: nothing, output: importListSchema, callers: screens },
  /** Takes a whole import back, but for cases that somebody has worked on since. */
  'spreadsheet:undo': {
    input: z.strictObject({ importId: recordIdSchema }),
    output: importListSchema.extend({ removed: z.number().int(), kept: z.number().int() }),
    callers: screens,
  },
  /** Other initials for a person, in every log as well. */
  'person:rename': {
    input: thePerson.extend({ initials: initialsSchema, revision: z.number().int().min(1) }),
    output: shopSchema,
    callers: screens,
  },
  /** Takes a person out of the shop and of every log; what was done stays. */
  'person:remove': {
    input: thePerson.extend({ revision: z.number().int().min(1) }),
    output: shopSchema,
    callers: screens,
  },
} as const;
