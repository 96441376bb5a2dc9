import type { FlowQuestion, FlowRange, FlowSheet } from '../../../src-core/contract/flow-sheet.ts';

/** One line of the sheet: what, how much, and what to make of it with its source. */
export interface FlowRow {
  readonly label: string;
  readonly value: string;
  readonly note: string;
}

/** Three figures that count: 4.52, 12.2, 0.0813; whole from 1000 on. */
export function figure(value: number): string {
  return value >= 1000 ? String(Math.round(value)) : String(Number(value.toPrecision(3)));
}

function range({ low, likely, high }: FlowRange, unit: string, show = figure): string {
  return low === high
    ? `${show(likely)} ${unit}`
    : `${show(likely)} ${unit} (${show(low)} to ${show(high)} ${unit})`;
}

const percent = (share: number) => String(Math.round(100 * share));
/** Nobody sets a speed finer than that. */
const whole = (value: number) => (value < 10 ? figure(value) : String(Math.round(value)));

/** The sheet in one sentence. */
export function leadWords({ flowMm3PerS, capacityMm3PerS }: FlowSheet): string {
  const flow = `${figure(flowMm3PerS)} mm³/s`;
  if (!capacityMm3PerS) return `${flow}. Say polymer and melt zone to set it against what the hot end melts.`;
  const { low, likely, high } = capacityMm3PerS;
  const span = `${figure(low)} to ${figure(high)} mm³/s`;
  if (flowMm3PerS <= low) return `${flow}: within what the hot end melts (${span}).`;
  if (flowMm3PerS <= likely)
    return `${flow}: most hot ends of this kind melt it, a weak one does not (${span}).`;
  if (flowMm3PerS <= high) return `${flow}: more than most hot ends of this kind melt (${span}).`;
  return `${flow}: more than hot ends of this kind melt (${span}).`;
}

/** What was asked, for paper and for those who come back to the screen. */
export function questionWords(question: FlowQuestion, polymer: string | null): string {
  const { lineWidthMm, layerHeightMm, speedMmPerS, nozzleMm, filamentDiameterMm, nozzleC } = question;
  const made = [polymer ?? 'polymer not said', nozzleC === null ? null : `${nozzleC} °C`];
  return `A line of ${lineWidthMm} × ${layerHeightMm} mm at ${speedMmPerS} mm/s through ${nozzleMm} mm, from ${filamentDiameterMm} mm filament (${made.filter(Boolean).join(', ')}).`;
}

export function flowRows(sheet: FlowSheet, question: FlowQuestion): readonly FlowRow[] {
  const more = Math.round(100 * (sheet.plainAreaMm2 / sheet.beadAreaMm2 - 1));
  const grams = sheet.gramsPerHour === null ? '' : `, ${figure(sheet.gramsPerHour)} g`;
  return [
    {
      label: 'Cross-section of the bead',
      value: `${figure(sheet.beadAreaMm2)} mm²`,
      note: `With half-round ends. Width times height is ${figure(sheet.plainAreaMm2)} mm², ${more} % more. Geometry.`,
    },
    {
      label: 'Flow',
      value: `${figure(sheet.flowMm3PerS)} mm³/s`,
      note: `A program that takes width times height pushes ${figure(sheet.plainFlowMm3PerS)} mm³/s.`,
    },
    {
      label: 'Filament speed',
      value: `${figure(sheet.feedMmPerS)} mm/s`,
      note: 'Flow over the cross-section of the filament.',
    },
    {
      label: 'Filament in an hour',
      value: `${figure(sheet.metresPerHour)} m${grams}`,
      note:
        sheet.gramsPerHour !== null
          ? 'Of steady printing, without travel. Customary density of the polymer.'
          : question.polymer === null
            ? 'Of steady printing, without travel. Say the polymer for grams.'
            : 'Of steady printing, without travel. Grams are left out: the density of this filament is not known.',
    },
  ];
}

export function heatRows(sheet: FlowSheet, question: FlowQuestion): readonly FlowRow[] {
  const { residenceSeconds, heatingSeconds, shareOfCapacity, fastestMmPerS } = sheet;
  const missing = `Say ${[question.polymer === null && 'the polymer', question.meltZone === null && 'the melt zone'].filter(Boolean).join(' and ')}.`;
  return [
    {
      label: 'Share of what the hot end melts',
      value: shareOfCapacity ? range(shareOfCapacity, '%', percent) : '–',
      note: shareOfCapacity
        ? 'Common practice, not verified, through 0.4 mm near the usual temperature: a setting, not a standard.'
        : missing,
    },
    {
      label: 'Fastest that it melts',
      value: fastestMmPerS ? range(fastestMmPerS, 'mm/s', whole) : '–',
      note: fastestMmPerS ? 'The speed at which this line uses that up.' : missing,
    },
    {
      label: 'Residence time in the melt zone',
      value: residenceSeconds === null ? '–' : `${figure(residenceSeconds)} s`,
      note:
        residenceSeconds === null
          ? 'Say the melt zone.'
          : 'Volume over flow; the length of the zone is an estimate.',
    },
    {
      label: 'Time to reach 90 % of wall temperature',
      value: range(heatingSeconds, 's'),
      note: 'Conduction into a cylinder (Crank 1975, eq. 5.23); diffusivity of polymers: typical value, not verified.',
    },
    hotterRow(sheet, question),
  ];
}

function hotterRow({ hotter }: FlowSheet, { polymer, nozzleC }: FlowQuestion): FlowRow {
  if (!hotter)
    return {
      label: 'Viscosity at 10 °C hotter',
      value: '–',
      note:
        polymer === null || nozzleC === null
          ? 'Say polymer and nozzle temperature.'
          : 'Not given: no activation energy of this polymer is at hand.',
    };
  return {
    label: `Viscosity at ${hotter.byC} °C hotter`,
    value: `${percent(hotter.lowestTimesViscosity)} to ${percent(hotter.highestTimesViscosity)} % of now`,
    note: 'Arrhenius; activation energies: typical values, not verified. Keep within the range on the spool.',
  };
}

/** What a closed group says of itself: its first line. */
export function groupWords([first]: readonly FlowRow[]): string {
  return first ? `${first.label}: ${first.value}` : '';
}

const LEVEL_WORDS: Readonly<Record<NonNullable<FlowSheet['bridging']>['level'], string>> = {
  low: 'Low',
  raised: 'Raised',
  high: 'High',
};

export function bridgingRows({ bridging }: FlowSheet, question: FlowQuestion): readonly FlowRow[] {
  if (!bridging)
    return [
      {
        label: 'Risk that filler bridges the nozzle',
        value: question.fillerPercent === 0 ? 'None' : '–',
        note:
          question.fillerPercent === 0
            ? 'No filler.'
            : 'Say how much filler and how long its fibres are. Chopped fibre in filament: about 0.1 mm (Blok et al. 2018) to 0.4 mm (Tekinalp et al. 2014).',
      },
    ];
  const next =
    bridging.nextBoreMm === null
      ? 'larger than the nozzles commonly sold'
      : `of those commonly sold, ${bridging.nextBoreMm} mm`;
  return [
    {
      label: 'Risk that filler bridges the nozzle',
      value: LEVEL_WORDS[bridging.level],
      note: 'Our estimate, after Thomas & Durian 2015: no size is sharply safe, and fibres align. A warning, not a verdict.',
    },
    {
      label: 'Smallest nozzle for it',
      value: `${bridging.smallestBoreMm.toFixed(2)} mm`,
      note: `That is, ${next}.`,
    },
  ];
}
