import { z } from 'zod';
import { ownExperienceChoiceSchema, ownExperienceSchema } from '../own-experience-view.ts';
import { actionListSchema, actionPlanSchema, laterActionEventSchema } from '../action-view.ts';
import {
  maintenanceEventSchema,
  maintenanceHistorySchema,
  maintenanceListSchema,
  maintenancePlanSchema,
} from '../maintenance-view.ts';
import {
  reportFileSchema,
  readerSchema,
  reportFormSchema,
  reportSubjectSchema,
  savePdfSchema,
  savedPdfSchema,
} from '../report-view.ts';
import {
  hoursPerWeekSchema,
  recurrenceFilterSchema,
  recurrenceSchema,
  usualHoursSchema,
} from '../recurrence-view.ts';
import { monthSchema, percentRhSchema, seasonSchema } from '../season-view.ts';
import { recordIdSchema, timeSchema } from '../common.ts';
import { guideUseSchema } from '../guide-use-view.ts';
import { settingRevisionSchema } from '../shop-records.ts';
import { everywhere, nothing, screens } from './shared.ts';

/** What comes back, what is done about it, maintenance and reports. */
export const leadCalls = {
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
  /** What a printer prints in a usual week, for the time in which nobody reads its meter; null where it is not to be counted so. */
  'lead:save-usual-hours': {
    input: z.strictObject({ printerId: recordIdSchema, hoursPerWeek: hoursPerWeekSchema.nullable() }),
    output: usualHoursSchema,
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
    input: z.strictObject({ about: reportSubjectSchema, form: reportFormSchema, reader: readerSchema }),
    output: reportFileSchema,
    callers: everywhere,
  },
  /** As PDF, where the window has asked for a place; a browser refuses, as it prints by itself. */
  'report:save-pdf': { input: savePdfSchema, output: savedPdfSchema, callers: screens },
} as const;
