import type { Application } from '../../../src-core/contract/material-fit.ts';

/** What may wet the part, with the words for it. */
export const AGENTS = [
  ['water', 'Water and damp'],
  ['oilsAndFuels', 'Oils and fuels'],
  ['alcohols', 'Alcohols'],
  ['acids', 'Acids'],
  ['alkalis', 'Alkalis'],
  ['solvents', 'Solvents'],
] as const;
/** Fields of the use with their choices; the first choice of each asks nothing. */
export const CHOICES = [
  [
    'steadyLoad',
    'Steady load',
    [
      ['none', 'None'],
      ['light', 'Light'],
      ['heavy', 'Heavy'],
    ],
  ],
  [
    'impact',
    'Impact',
    [
      ['none', 'None'],
      ['knocks', 'Knocks'],
      ['blows', 'Hard blows'],
    ],
  ],
  [
    'sliding',
    'Sliding',
    [
      ['none', 'None'],
      ['some', 'Now and then'],
      ['steady', 'Steadily'],
    ],
  ],
  [
    'stiffness',
    'Stiffness',
    [
      ['any', 'Does not matter'],
      ['rigid', 'Rigid'],
      ['springy', 'Springs like a clip'],
      ['flexible', 'Bends like a strap'],
      ['rubbery', 'Soft like rubber'],
    ],
  ],
  [
    'looks',
    'Looks',
    [
      ['any', 'Do not matter'],
      ['clear', 'See-through'],
      ['smooth', 'Smooth'],
    ],
  ],
  [
    'contact',
    'Touches',
    [
      ['none', 'Neither skin nor food'],
      ['skin', 'Skin, for long'],
      ['food', 'Food'],
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
    ...(use.isOutdoors ? ['outdoors'] : []),
    ...AGENTS.filter(([agent]) => use.agents.includes(agent)).map(([, words]) => words.toLowerCase()),
  ];
  const chosen = CHOICES.flatMap(([field, label, [nothing, ...values]]) => {
    const words = values.find(([value]) => value === use[field])?.[1];
    return use[field] === nothing[0] || words === undefined ? [] : [`${label}: ${words.toLowerCase()}`];
  });
  const coldest = lowestServiceTemperatureC === null ? '' : `, down to ${lowestServiceTemperatureC} °C`;
  return [
    `Up to ${serviceTemperatureC} °C${coldest}`,
    ...chosen,
    ...(around.length > 0 ? [`Around it: ${around.join(', ')}`] : []),
    ...(standsInFor === null ? [] : [`In place of moulded ${labelOf(standsInFor)}`]),
    ...(filler === 'none' ? [] : [`Filled with ${labelOf(filler).toLowerCase()}`]),
  ]
    .map((sentence) => `${sentence}.`)
    .join(' ');
}
