/** Sizes of paper: metric, and North American. */
export const PAPER_SIZES = ['A4', 'Letter'] as const;
export type PaperSize = (typeof PAPER_SIZES)[number];

/** The tables of each kind of report, by the name that their files carry, and what they hold. */
export const REPORT_TABLES = {
  case: { steps: 'Step by step', conditions: 'Known circumstances' },
  month: {
    cases: 'Cases',
    printers: 'By printer',
    causes: 'By cause',
    actions: 'Actions',
    maintenance: 'Maintenance done',
  },
  'guide-use': {
    ranks: 'Place of the confirmed cause',
    calibration: 'What was said and what came true',
    checks: 'Checks',
    remedies: 'Remedies',
    causes: 'Causes that the guide does not have',
  },
  printer: {
    cases: 'Cases',
    causes: 'By cause',
    maintenance: 'Maintenance',
    readings: 'Meter readings',
    actions: 'Actions',
  },
} as const;

export type ReportKind = keyof typeof REPORT_TABLES;
