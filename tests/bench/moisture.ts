import {
  planDrying,
  waterAfter,
  waterBand,
  type ClimateSpan,
  type SpoolLife,
} from '../../src-core/moisture/index.ts';
import { kilogramOf, waterOf } from '../moisture/spools.ts';

/** Hours of a year with seasons, days and passing weather; smooth, so that every hour differs. */
function yearOfHours(): readonly ClimateSpan[] {
  const turn = 2 * Math.PI;
  return Array.from({ length: 8760 }, (_, hour) => ({
    durationHours: 1,
    temperatureC: 20 + 5 * Math.sin((hour / 8760) * turn) + 2 * Math.sin((hour / 24) * turn),
    relativeHumidity: 0.5 + 0.15 * Math.sin((hour / 8760) * turn) + 0.1 * Math.sin((hour / 97) * turn),
  }));
}

const water = waterOf('pa6');
const lived: SpoolLife = {
  winding: kilogramOf(water),
  water,
  start: { kind: 'content', massFraction: 0 },
  climate: yearOfHours(),
};
const wet: SpoolLife = { ...lived, start: { kind: 'in-equilibrium', relativeHumidity: 0.5 }, climate: [] };

/** What `npm run bench` times of moisture: a kilogram of PA6, whose isotherm is bent and takes longest. */
export const MOISTURE_WORK: readonly (readonly [what: string, run: () => unknown])[] = [
  ['a year of hourly climate, likely data', () => waterAfter(lived)],
  ['the same as a band with chances', () => waterBand(lived, 5)],
  [
    'a drying plan',
    () =>
      planDrying({
        ...wet,
        dryer: { chamberTemperatureC: 90, air: { kind: 'dry-air', dewPointC: -40 } },
        spoolBodyHighestC: 150,
        targetMassFraction: water.printingLimit.low,
      }),
  ],
];
