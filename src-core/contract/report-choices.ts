import { documentTexts } from '../words/en/documents.ts';
import type { Message } from '../words/message.ts';

const { m } = documentTexts;

/** Sizes of paper: metric, and North American. */
export const PAPER_SIZES = ['A4', 'Letter'] as const;
export type PaperSize = (typeof PAPER_SIZES)[number];

/** The tables of each kind of report, by the name that their files carry, and what they hold. */
export const REPORT_TABLES = {
  case: { steps: m.stepByStep(), conditions: m.knownCircumstances() },
  month: {
    cases: m.cases(),
    printers: m.byPrinter(),
    causes: m.byCause(),
    actions: m.actions(),
    maintenance: m.maintenanceDone(),
  },
  'guide-use': {
    ranks: m.placeOfConfirmed(),
    calibration: m.saidAndCameTrue(),
    checks: m.checks(),
    remedies: m.remedies(),
    causes: m.causesNotInGuide(),
  },
  printer: {
    cases: m.cases(),
    causes: m.byCause(),
    maintenance: m.maintenance(),
    readings: m.meterReadings(),
    actions: m.actions(),
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, Message>>>>;

export type ReportKind = keyof typeof REPORT_TABLES;
