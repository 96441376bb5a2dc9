import type { KnowledgeFault } from './fault.ts';
import { nearestId } from './nearest-id.ts';
import type { ParsedKnowledgeFile } from './parse.ts';
import type { PlacedLists } from './placed-lists.ts';

/** What every guide has once, in one file. */
const SINGLES = ['makeSafe', 'melting', 'serviceHeat', 'machineStates', 'jobLimits'] as const;
export type SingleName = (typeof SINGLES)[number];

/** What must stand in one file stands in one, and names polymers that the guide has. */
export function checkSingles(files: readonly ParsedKnowledgeFile[], lists: PlacedLists): KnowledgeFault[] {
  // A guide without observations is none yet: a file under way is checked for what it holds.
  const isWhole = lists.observations.length > 0 && lists.materials.length > 0;
  return [
    ...SINGLES.flatMap((name): KnowledgeFault[] => {
      const [first, ...others] = files.filter(({ content }) => content[name] !== undefined);
      if (!first && isWhole)
        return [
          {
            code: 'missing-part',
            file: lists.materials[0]?.at().file ?? '',
            line: 1,
            message: `no file of the guide has "${name}"`,
            remedy: `add it to a file of the guide; "knowledge schema" prints its shape`,
          },
        ];
      return others.map((file) => ({
        code: 'doubled-part',
        file: file.file,
        line: file.lineOf([name]),
        message: `"${name}" stands in ${first?.file} already`,
        remedy: 'keep one of them',
      }));
    }),
    ...files.flatMap((file) => unknownPolymers(file, lists)),
  ];
}

function unknownPolymers(
  { file, content, lineOf }: ParsedKnowledgeFile,
  lists: PlacedLists,
): KnowledgeFault[] {
  const polymers = lists.materials.flatMap(({ entry }) => (entry.kind === 'polymer' ? [entry.id] : []));
  const { melting } = content;
  if (!melting) return [];
  return (['shareOfPla', 'activationKjPerMol'] as const).flatMap((table) =>
    melting[table].flatMap(({ polymer }, row): KnowledgeFault[] => {
      const before = melting[table].findIndex((one) => one.polymer === polymer);
      const where = { file, line: lineOf(['melting', table, row, 'polymer']) };
      if (before !== row)
        return [
          {
            code: 'doubled-id',
            ...where,
            message: `${table} has "${polymer}" twice`,
            remedy: 'remove one of them',
          },
        ];
      if (polymers.includes(polymer)) return [];
      const near = nearestId(polymer, polymers);
      return [
        {
          code: 'dangling-id',
          ...where,
          message: `${table} names "${polymer}", which is no polymer of the guide`,
          remedy: near ? `did you mean "${near}"?` : 'add it to the materials or remove the mention',
        },
      ];
    }),
  );
}
