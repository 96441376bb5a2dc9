import { ownExperienceChoiceSchema, ownExperienceSchema } from './own-experience-view.ts';
import { z } from 'zod';
import { workIdSchema } from './watch.ts';
import { shopCostsSchema } from './shop-costs.ts';
import type { CallName } from './call-names.ts';
import { LARGEST_PHOTO_BYTES } from './photo-limits.ts';
import { LARGEST_PIECE_BYTES } from './file-calls.ts';
import { networkSchema } from './network-view.ts';
import { accessSchema, deviceInputSchema, invitationSchema, meSchema, pinSchema } from './access-view.ts';
import { benchSchema, pastCaseSchema } from './bench-view.ts';
import { caseEventSchema, intakeSchema } from './case-event.ts';
import { caseViewSchema, whyCandidateSchema, whyCheckSchema } from './case-view.ts';
import {
  backupSchema,
  caseFilterSchema,
  caseListSchema,
  dumpsSchema,
  reassignedSchema,
  reassignmentSchema,
  timelineSchema,
} from './casebook-view.ts';
import { actionListSchema, actionPlanSchema, laterActionEventSchema } from './action-view.ts';
import {
  maintenanceEventSchema,
  maintenanceHistorySchema,
  maintenanceListSchema,
  maintenancePlanSchema,
} from './maintenance-view.ts';
import {
  reportFileSchema,
  reportFormSchema,
  reportSubjectSchema,
  savedPdfSchema,
  savePdfSchema,
} from './report-view.ts';
import { recurrenceFilterSchema, recurrenceSchema } from './recurrence-view.ts';
import { monthSchema, percentRhSchema, seasonSchema } from './season-view.ts';
import { binSchema } from './bin-view.ts';
import {
  bytesSchema,
  idSchema,
  initialsSchema,
  photoHashSchema,
  recordIdSchema,
  timeSchema,
} from './common.ts';
import {
  importListSchema,
  spreadsheetFileSchema,
  spreadsheetLookSchema,
  spreadsheetMappingSchema,
  spreadsheetReportSchema,
} from './spreadsheet-view.ts';
import {
  causeLooksSchema,
  observationWeightsSchema,
  statementsQuestionSchema,
} from './guide-differential.ts';
import { guideUseSchema } from './guide-use-view.ts';
import { guideSchema } from './guide-view.ts';
import { savedViewsSchema } from './saved-views.ts';
import { thenAndNowSchema } from './then-and-now-view.ts';
import { secondThoughtsSchema } from './second-thoughts-view.ts';
import { flowQuestionSchema, flowSheetSchema } from './flow-sheet.ts';
import { fitQuestionSchema, fitReportSchema } from './material-fit.ts';
import { jobMachineSchema, jobReportSchema, temperatureReportSchema } from './job-report.ts';
import {
  displaySchema,
  personInputSchema,
  printerInputSchema,
  settingRevisionSchema,
  shopSchema,
  spoolInputSchema,
} from './shop-records.ts';
import {
  roomClimateSchema,
  spoolEventSchema,
  spoolQuestionSchema,
  spoolReportSchema,
  storageQuestionSchema,
  storageReportSchema,
} from './spool-life.ts';
import { DRILL_KINDS } from './drill-kinds.ts';
import { drillAnswerSchema, drillViewSchema } from './drill-view.ts';
import {
  practicePhotosSchema,
  traineeRecordSchema,
  trainingClassSchema,
  trainingDoneSchema,
  trainingOptionsSchema,
} from './training-results.ts';
import { trainingRunSchema, trainingViewSchema } from './training-view.ts';
import { ballotInputSchema, ballotResultSchema, voteViewSchema } from './vote-view.ts';

export type Caller = 'desktop' | 'station' | 'command';

interface CallDefinition {
  readonly input: z.ZodType;
  readonly output: z.ZodType;
  readonly callers: readonly Caller[];
}

const everywhere = ['desktop', 'station', 'command'] as const;
const screens = ['desktop', 'station'] as const;
const atTheStation = ['station'] as const;
const nothing = z.strictObject({});
/** Characters of a piece of a job file. */
const savedViewListSchema = z.strictObject({ views: savedViewsSchema, revision: settingRevisionSchema });
const thePerson = z.strictObject({ personId: recordIdSchema });
const theCase = z.strictObject({ caseId: recordIdSchema });

export const hostInfoSchema = z.strictObject({
  host: z.enum(['desktop', 'station', 'command']),
  programVersion: z.string(),
  engineVersion: z.string(),
  knowledgeVersion: z.string(),
  casebookFile: z.string(),
});

/** The one table of calls: name, input, output, and who may call it. Both hosts and the command line are built from it. */
export const calls = {
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
        bytesSchema(LARGEST_PIECE_BYTES).refine(({ length }) => length > 0, 'there is nothing in it'),
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
  /** Printer or spool of several cases; the same call takes it back. */
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
        z.strictObject({ number: z.number().int(), seq: z.number().int(), fault: z.string() }),
      ),
    }),
    callers: everywhere,
  },
  'case:import': {
    input: z.strictObject({ jsonLines: z.string().max(64 * 1024 * 1024) }),
    output: z.strictObject({
      imported: z.number().int(),
      /** Already here under the same id. */
      known: z.number().int(),
      faults: z.array(z.strictObject({ line: z.number().int(), message: z.string() })),
    }),
    callers: everywhere,
  },
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
  /** What the shop's own closed cases say beside the guide; of one printer where one is named. */
  'lead:experience': {
    input: z.strictObject({ printerId: recordIdSchema.nullable().default(null) }),
    output: ownExperienceSchema,
    callers: screens,
  },
  'lead:save-experience': {
    input: z.strictObject({ choice: ownExperienceChoiceSchema, revision: settingRevisionSchema }),
    output: ownExperienceSchema,
    callers: screens,
  },
  /** How the guide did in the shop's closed cases, from what was kept of them. */
  'lead:guide-use': { input: nothing, output: guideUseSchema, callers: screens },
  'lead:recurrence': { input: recurrenceFilterSchema, output: recurrenceSchema, callers: everywhere },
  /** Moisture-related cases by month beside the room's humidity. */
  'lead:season': {
    input: recurrenceFilterSchema.omit({ by: true }),
    output: seasonSchema,
    callers: everywhere,
  },
  'lead:save-humidity': {
    input: z.strictObject({
      month: monthSchema,
      percentRh: percentRhSchema.nullable(),
      revision: settingRevisionSchema,
      /** Of the season that is answered; all months where left out. */
      period: recurrenceFilterSchema.omit({ by: true }).optional(),
    }),
    output: seasonSchema,
    callers: screens,
  },
  /** The zone by whose clock months, days and shifts are counted; null for the machine's own. */
  'lead:save-time-zone': {
    input: z.strictObject({ timeZone: z.string().min(1).max(60).nullable() }),
    output: z.strictObject({ timeZone: z.string() }),
    callers: screens,
  },
  'action:list': { input: nothing, output: actionListSchema, callers: everywhere },
  /** Open actions that are due today or overdue: a number for every screen, without any computing. */
  'action:count-due': { input: nothing, output: z.strictObject({ due: z.number().int() }), callers: screens },
  'action:open': {
    input: z.strictObject({
      plan: actionPlanSchema,
      /** What happens to it at once: a finding that is dismissed or put off is an action that never began. */
      then: laterActionEventSchema.nullable().default(null),
    }),
    output: actionListSchema,
    callers: screens,
  },
  'action:log': {
    input: z.strictObject({
      actionId: recordIdSchema,
      event: laterActionEventSchema,
      /** The revision that the caller looked at; another answers "stale" with the list as it stands. */
      revision: z.number().int().min(1),
    }),
    output: actionListSchema,
    callers: screens,
  },
  /** What each printer needs and when, and the shop's plan. */
  'maintenance:list': { input: nothing, output: maintenanceListSchema, callers: everywhere },
  'maintenance:history': {
    input: z.strictObject({ printerId: recordIdSchema }),
    output: maintenanceHistorySchema,
    callers: screens,
  },
  'maintenance:log': {
    input: z.strictObject({
      printerId: recordIdSchema,
      event: maintenanceEventSchema,
      /** When it happened, if not just now: never later than now. */
      at: timeSchema.nullable().default(null),
      /** The revision that the caller looked at; another answers "stale" with the list as it stands. */
      revision: z.number().int().min(0),
    }),
    output: maintenanceListSchema,
    callers: screens,
  },
  'maintenance:save-plan': {
    input: z.strictObject({ plan: maintenancePlanSchema, revision: settingRevisionSchema }),
    output: maintenanceListSchema,
    callers: screens,
  },
  /** A report as a file: a document that needs nothing beside it, or one of its tables. */
  'report:make': {
    input: z.strictObject({ about: reportSubjectSchema, form: reportFormSchema }),
    output: reportFileSchema,
    callers: everywhere,
  } /** As PDF, where the window has asked for a place; a browser refuses, as it prints by itself. */,
  'report:save-pdf': { input: savePdfSchema, output: savedPdfSchema, callers: screens },

  'training:view': { input: trainingRunSchema, output: trainingViewSchema, callers: screens },
  /** The same questions as of a case, of a practice case in which the guide helps. */
  'training:why-candidate': {
    input: z.strictObject({ run: trainingRunSchema, cause: idSchema }),
    output: whyCandidateSchema,
    callers: screens,
  },
  'training:why-check': {
    input: z.strictObject({ run: trainingRunSchema, observation: idSchema }),
    output: whyCheckSchema,
    callers: screens,
  },
  'training:second-thoughts': {
    input: z.strictObject({ run: trainingRunSchema }),
    output: secondThoughtsSchema.nullable(),
    callers: screens,
  },
  'training:options': { input: nothing, output: trainingOptionsSchema, callers: screens },
  'training:drill': {
    input: z.strictObject({
      drill: z.enum(DRILL_KINDS),
      seed: z.number().int().min(0).max(0xffffffff),
      /** Null until it is handed in. */
      answer: drillAnswerSchema.nullable().default(null),
    }),
    output: drillViewSchema,
    callers: screens,
  },
  /** Photos of a closed case, each checked off before trainees see it. */
  'training:photos': { input: theCase, output: practicePhotosSchema, callers: screens },
  'training:free-photo': {
    input: theCase.extend({ photo: photoHashSchema, isFree: z.boolean() }),
    output: practicePhotosSchema,
    callers: screens,
  },
  'training:record': { input: thePerson, output: traineeRecordSchema, callers: screens },
  'training:class': { input: nothing, output: trainingClassSchema, callers: screens },
  'training:keep': {
    input: thePerson.extend({
      /** Of the screen's making: sent a second time it answers "stale" with the record as it stands. */
      resultId: recordIdSchema,
      done: trainingDoneSchema,
    }),
    output: traineeRecordSchema,
    callers: screens,
  },
  'training:export': {
    input: thePerson,
    output: z.strictObject({ jsonLines: z.string(), count: z.number().int() }),
    callers: screens,
  },
  /** Deletes all that is kept of a person's training; done twice it changes nothing more. */
  'training:forget': { input: thePerson, output: traineeRecordSchema, callers: screens },
  /** The vote of a group session that is under way, as the caller may see it. */
  'vote:look': { input: nothing, output: voteViewSchema, callers: screens },
  /** Puts a vote up, in the place of the one before; sent a second time it answers "stale". */
  'vote:ask': { input: ballotInputSchema, output: voteViewSchema, callers: screens },
  /** One vote a person, or a device on which nobody is signed in; the last one counts, until it is revealed. */
  'vote:cast': {
    input: z.strictObject({ ballotId: recordIdSchema, choice: idSchema }),
    output: voteViewSchema,
    callers: screens,
  },
  /** Lets everybody see how it came out, and later what came of it. */
  'vote:reveal': {
    input: z.strictObject({ ballotId: recordIdSchema, result: ballotResultSchema }),
    output: voteViewSchema,
    callers: screens,
  },
  'vote:end': { input: nothing, output: voteViewSchema, callers: screens },
  'demo:load': {
    input: z.strictObject({ workId: workIdSchema.nullable().default(null) }),
    output: shopSchema,
    callers: everywhere,
  },
  'demo:remove': { input: nothing, output: shopSchema, callers: everywhere },
  'backup:list': {
    input: nothing,
    output: z.strictObject({
      backups: z.array(backupSchema),
      folder: z.string(),
      /** The casebook is gone or cannot be read and there is no way back: an empty one may be begun. */
      isCasebookMissing: z.boolean(),
      /** Where another program makes the copies; null where Beadwright makes its own. */
      dumps: dumpsSchema.nullable(),
      /** Something about the backups that should be seen to, such as a full disk. */
      warning: z.string().nullable(),
    }),
    callers: everywhere,
  },
  'casebook:begin-empty': {
    input: nothing,
    /** The folder in which the lost casebook's backups are now. */
    output: z.strictObject({ setAside: z.string() }),
    callers: screens,
  },
  'backup:make': { input: nothing, output: backupSchema, callers: everywhere },
  'backup:restore': {
    input: z.strictObject({ name: z.string().regex(/^[A-Za-z0-9._-]{1,120}$/, 'not the name of a backup') }),
    output: z.strictObject({ restored: z.string(), keptAs: z.string() }),
    callers: everywhere,
  },
  'access:me': { input: nothing, output: meSchema, callers: screens },
  /** On the device that asks; wrong PINs are slowed. */
  'access:sign-in': { input: thePerson.extend({ pin: pinSchema }), output: meSchema, callers: atTheStation },
  'access:sign-out': { input: nothing, output: meSchema, callers: atTheStation },
  'access:list': { input: nothing, output: accessSchema, callers: screens },
  /** Makes a code that lets one device in, once and soon. */
  'access:invite': { input: deviceInputSchema, output: invitationSchema, callers: screens },
  'access:change-device': {
    input: deviceInputSchema.extend({ deviceId: recordIdSchema }),
    output: accessSchema,
    callers: screens,
  },
  /** For good: a device that is to come back joins with a new code. */
  'access:revoke-device': {
    input: z.strictObject({ deviceId: recordIdSchema }),
    output: accessSchema,
    callers: screens,
  },
  /** Null takes the PIN away. */
  'access:set-pin': {
    input: thePerson.extend({ pin: pinSchema.nullable() }),
    output: accessSchema,
    callers: screens,
  },
  /** The door for tablets and phones. */
  'network:read': { input: nothing, output: networkSchema, callers: screens },
  'network:switch': {
    input: z.strictObject({ isOpen: z.boolean() }),
    output: networkSchema,
    callers: screens,
  },
} as const satisfies Record<CallName, CallDefinition>;

export type InputOf<N extends CallName> = z.input<(typeof calls)[N]['input']>;
export type ParsedInputOf<N extends CallName> = z.output<(typeof calls)[N]['input']>;
export type OutputOf<N extends CallName> = z.output<(typeof calls)[N]['output']>;
