import { fixed } from '../../messages/figures.ts';
import type { FlowQuestion, FlowRange, FlowSheet } from '../../../src-core/contract/flow-sheet.ts';
import { listed } from '../../messages/lists.ts';
import { m } from '../../messages/en/flow-words.ts';

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
    : m.to({ show: show(likely), unit, show2: show(low), show3: show(high) });
}

const percent = (share: number) => String(Math.round(100 * share));
/** Nobody sets a speed finer than that. */
const whole = (value: number) => (value < 10 ? figure(value) : String(Math.round(value)));

/** The sheet in one sentence. */
export function leadWords({ flowMm3PerS, capacityMm3PerS }: FlowSheet): string {
  const flow = m.mm3S({ figure: figure(flowMm3PerS) });
  if (!capacityMm3PerS) return m.sayPolymerAndMeltZoneTo({ flow });
  const { low, likely, high } = capacityMm3PerS;
  const span = m.toMm3S({ figure: figure(low), figure2: figure(high) });
  if (flowMm3PerS <= low) return m.withinWhatTheHotEndMelts({ flow, span });
  if (flowMm3PerS <= likely) return m.mostHotEndsOfThisKind({ flow, span });
  if (flowMm3PerS <= high) return m.moreThanMostHotEndsOf({ flow, span });
  return m.moreThanHotEndsOfThis({ flow, span });
}

/** What was asked, for paper and for those who come back to the screen. */
export function questionWords(question: FlowQuestion, polymer: string | null): string {
  const { lineWidthMm, layerHeightMm, speedMmPerS, nozzleMm, filamentDiameterMm, nozzleC } = question;
  const made = [polymer ?? m.polymerNotSaid(), ...(nozzleC === null ? [] : [m.celsius({ nozzleC })])];
  return m.aLineOfMmAtMm({
    lineWidthMm,
    layerHeightMm,
    speedMmPerS,
    nozzleMm,
    filamentDiameterMm,
    made: listed(made, 'comma'),
  });
}

export function flowRows(sheet: FlowSheet, question: FlowQuestion): readonly FlowRow[] {
  const more = Math.round(100 * (sheet.plainAreaMm2 / sheet.beadAreaMm2 - 1));
  const metres = figure(sheet.metresPerHour);
  return [
    {
      label: m.crossSectionOfTheBead(),
      value: m.mm2({ figure: figure(sheet.beadAreaMm2) }),
      note: m.withHalfRoundEndsWidthTimes({ figure: figure(sheet.plainAreaMm2), more }),
    },
    {
      label: m.flow(),
      value: m.mm3S({ figure: figure(sheet.flowMm3PerS) }),
      note: m.aProgramThatTakesWidthTimes({ figure: figure(sheet.plainFlowMm3PerS) }),
    },
    {
      label: m.filamentSpeed(),
      value: m.mmS({ figure: figure(sheet.feedMmPerS) }),
      note: m.flowOverTheCrossSectionOf(),
    },
    {
      label: m.filamentInAnHour(),
      value:
        sheet.gramsPerHour === null
          ? m.m({ figure: metres })
          : m.metresAndGrams({ metres, grams: figure(sheet.gramsPerHour) }),
      note:
        sheet.gramsPerHour !== null
          ? m.ofSteadyPrintingWithoutTravel()
          : question.polymer === null
            ? m.ofSteadyPrintingWithoutTravelSay()
            : m.ofSteadyPrintingWithoutTravelGrams(),
    },
  ];
}

export function heatRows(sheet: FlowSheet, question: FlowQuestion): readonly FlowRow[] {
  const { residenceSeconds, heatingSeconds, shareOfCapacity, fastestMmPerS } = sheet;
  const missing =
    question.meltZone !== null
      ? m.sayThePolymer()
      : question.polymer !== null
        ? m.sayTheMeltZone()
        : m.sayThePolymerAndTheMeltZone();
  return [
    {
      label: m.shareOfWhatTheHotEnd(),
      value: shareOfCapacity ? range(shareOfCapacity, '%', percent) : '–',
      note: shareOfCapacity ? m.commonPracticeNotVerifiedThrough0() : missing,
    },
    {
      label: m.fastestThatItMelts(),
      value: fastestMmPerS ? range(fastestMmPerS, 'mm/s', whole) : '–',
      note: fastestMmPerS ? m.theSpeedAtWhichThisLine() : missing,
    },
    {
      label: m.residenceTimeInTheMeltZone(),
      value: residenceSeconds === null ? '–' : m.s({ figure: figure(residenceSeconds) }),
      note: residenceSeconds === null ? m.sayTheMeltZone() : m.volumeOverFlowTheLengthOf(),
    },
    {
      label: m.timeToReach90OfWall(),
      value: range(heatingSeconds, 's'),
      note: m.conductionIntoACylinderCrank1975(),
    },
    hotterRow(sheet, question),
  ];
}

function hotterRow({ hotter }: FlowSheet, { polymer, nozzleC }: FlowQuestion): FlowRow {
  if (!hotter)
    return {
      label: m.viscosityAt10CelsiusHotter(),
      value: '–',
      note:
        polymer === null || nozzleC === null
          ? m.sayPolymerAndNozzleTemperature()
          : m.notGivenNoActivationEnergyOf(),
    };
  return {
    label: m.viscosityAtCelsiusHotter({ byC: hotter.byC }),
    value: m.toOfNow({
      percent: percent(hotter.lowestTimesViscosity),
      percent2: percent(hotter.highestTimesViscosity),
    }),
    note: m.arrheniusActivationEnergiesTypical(),
  };
}

/** What a closed group says of itself: its first line. */
export function groupWords([first]: readonly FlowRow[]): string {
  return first ? `${first.label}: ${first.value}` : '';
}

const LEVEL_WORDS: Readonly<Record<NonNullable<FlowSheet['bridging']>['level'], string>> = {
  low: m.low(),
  raised: m.raised(),
  high: m.high(),
};

export function bridgingRows({ bridging }: FlowSheet, question: FlowQuestion): readonly FlowRow[] {
  if (!bridging)
    return [
      {
        label: m.riskThatFillerBridgesTheNozzle(),
        value: question.fillerPercent === 0 ? m.none() : '–',
        note: question.fillerPercent === 0 ? m.noFiller() : m.sayHowMuchFillerAndHow(),
      },
    ];
  const next =
    bridging.nextBoreMm === null
      ? m.largerThanTheNozzlesCommonlySold()
      : m.ofThoseCommonlySoldMm({ nextBoreMm: bridging.nextBoreMm });
  return [
    {
      label: m.riskThatFillerBridgesTheNozzle(),
      value: LEVEL_WORDS[bridging.level],
      note: m.ourEstimateAfterThomasDurian2015(),
    },
    {
      label: m.smallestNozzleForIt(),
      value: m.mm({ smallestBoreMm: fixed(bridging.smallestBoreMm, 2) }),
      note: m.thatIs({ next }),
    },
  ];
}
