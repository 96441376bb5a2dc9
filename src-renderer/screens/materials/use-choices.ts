import type { Application } from '../../../src-core/contract/material-fit.ts';
import { listed, sentences } from '../../messages/lists.ts';
import { m } from '../../messages/en/materials.ts';

/** What may wet the part, with the words for it. */
export const AGENTS = [
  ['water', m.waterAndDamp()],
  ['oilsAndFuels', m.oilsAndFuels()],
  ['alcohols', m.alcohols()],
  ['acids', m.acids()],
  ['alkalis', m.alkalis()],
  ['solvents', m.solvents()],
] as const;
/** Fields of the use with their choices; the first choice of each asks nothing. */
export const CHOICES = [
  [
    'steadyLoad',
    m.steadyLoad(),
    [
      ['none', m.none()],
      ['light', m.light()],
      ['heavy', m.heavy()],
    ],
  ],
  [
    'impact',
    m.impact(),
    [
      ['none', m.none()],
      ['knocks', m.knocks()],
      ['blows', m.hardBlows()],
    ],
  ],
  [
    'sliding',
    m.sliding(),
    [
      ['none', m.none()],
      ['some', m.nowAndThen()],
      ['steady', m.steadily()],
    ],
  ],
  [
    'stiffness',
    m.stiffness(),
    [
      ['any', m.doesNotMatter()],
      ['rigid', m.rigid()],
      ['springy', m.springsLikeAClip()],
      ['flexible', m.bendsLikeAStrap()],
      ['rubbery', m.softLikeRubber()],
    ],
  ],
  [
    'looks',
    m.looks(),
    [
      ['any', m.doNotMatter()],
      ['clear', m.seeThrough()],
      ['smooth', m.smooth()],
    ],
  ],
  [
    'contact',
    m.touches(),
    [
      ['none', m.neitherSkinNorFood()],
      ['skin', m.skinForLong()],
      ['food', m.food()],
    ],
  ],
] as const;

/**
 * The use in one line for the printed page: "Up to 60 °C, down to -20 °C. Impact: hard blows. Around it: outdoors, acids."
 * `labelOf` gives the label of a material.
 */
export function useWords(use: Application, filler: string, labelOf: (material: string) => string): string {
  const { serviceTemperatureC, lowestServiceTemperatureC, standsInFor } = use;
  const around = [
    ...(use.isOutdoors ? [m.outdoorsAroundIt()] : []),
    ...AGENTS.filter(([agent]) => use.agents.includes(agent)).map(([, words]) => words.toLowerCase()),
  ];
  const chosen = CHOICES.flatMap(([field, label, [nothing, ...values]]) => {
    const words = values.find(([value]) => value === use[field])?.[1];
    return use[field] === nothing[0] || words === undefined
      ? []
      : [m.chosen({ label, words: words.toLowerCase() })];
  });
  return sentences([
    lowestServiceTemperatureC === null
      ? m.upToCelsius({ serviceTemperatureC })
      : m.upToAndDownTo({ serviceTemperatureC, lowestServiceTemperatureC }),
    ...chosen,
    ...(around.length > 0 ? [m.aroundIt({ around: listed(around) })] : []),
    ...(standsInFor === null ? [] : [m.inPlaceOfMoulded({ label: labelOf(standsInFor) })]),
    ...(filler === 'none' ? [] : [m.filledWithWithLabel({ label: labelOf(filler).toLowerCase() })]),
  ]);
}
