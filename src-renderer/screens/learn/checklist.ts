import { listed } from '../../messages/lists.ts';
import type { GuideBook } from '../../host/guide-book.ts';

type Material = GuideBook['guide']['materials'][number];
type Property = Material['properties']['nozzleTempC'];

/** A lined hot end bears no more, °C. Common practice, as the guide's caution says. */
const LINER_UP_TO_C = 250;
/** Polymers whose vapour the guide's caution names. */
const FUMING = new Set([
  'abs',
  'asa',
  'hips',
  'pa6',
  'pa12',
  'pa66',
  'pmma',
  'pps',
  'pei',
  'peek',
  'pekk',
  'ppsu',
]);

/** What a page beside the machine says of a material, in the guide's figures. */
export function materialFigures({ id, label, properties }: Material) {
  const hours = rangeWords(properties.dryingHours, 'h');
  return {
    id,
    label,
    nozzle: rangeWords(properties.nozzleTempC, '°C'),
    plate: rangeWords(properties.plateTempC, '°C'),
    fan: rangeWords(properties.partFanPercent, '%'),
    drying: listed(
      [rangeWords(properties.dryingTempC, '°C'), hours].filter((one) => one !== ''),
      'comma',
    ),
    storage: typeof properties.storage?.value === 'string' ? properties.storage.value : '',
  };
}

/** Cautions that belong on the page of a machine with these materials. */
export function cautionsFor(
  materials: readonly Material[],
  conditions: Readonly<Record<string, string | number>>,
): string[] {
  const isHot = materials.some(({ properties }) => (properties.nozzleTempC?.high ?? 0) > LINER_UP_TO_C);
  return [
    'hot-parts',
    ...(materials.some(({ id }) => FUMING.has(id)) ? ['printing-fumes'] : []),
    ...(conditions['hot-end'] === 'lined' && isHot ? ['liner-overheats'] : []),
  ];
}

function rangeWords(property: Property, unit: string): string {
  if (!property) return '';
  const { low, high, value } = property;
  if (low !== undefined && high !== undefined)
    return low === high ? `${low} ${unit}` : `${low}–${high} ${unit}`;
  return typeof value === 'number' ? `${value} ${unit}` : '';
}
