import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';

const sharesSchema = z.record(z.string(), z.number().min(0).max(100));
const rowSchema = z.strictObject({
  /** Observation: the complaint, or the finding. */
  id: z.string(),
  /** Of a thousand troubled jobs in ordinary shops, how many come with this as the main complaint. */
  perThousand: z.number().min(0).max(1000).optional(),
  /** Circumstance that is known besides. */
  with: z.record(z.string(), z.union([z.string(), z.number()])).optional(),
  /** Of 100 such complaints or findings, how many from which cause. */
  from: sharesSchema,
});
const fileSchema = z.strictObject({ judgement: z.string(), rows: z.array(rowSchema) });

export const SOMETHING_ELSE = 'something-else';

/** What independent readers expect of one complaint or finding: median share (0-1) of each cause, and how far they differ. */
export interface Expectation {
  readonly id: string;
  readonly conditions: Readonly<Record<string, string | number>>;
  readonly perThousand: number | null;
  readonly readers: number;
  /** Sums to 1 with `somethingElse`. */
  readonly shares: ReadonlyMap<string, number>;
  /** Largest less smallest share that readers gave, by cause. */
  readonly spread: ReadonlyMap<string, number>;
  readonly somethingElse: number;
}

const folder = path.join(import.meta.dirname, '..', '..', 'expectations', 'readers');

/** Reads what readers said by complaint and by finding in `expectations/readers`; ids are looked up by `today`, so that a renamed cause keeps its rows. */
export function readExpectations(today: (id: string) => string = (id) => id): Expectation[] {
  if (!existsSync(folder)) return [];
  const grouped = new Map<string, z.infer<typeof rowSchema>[]>();
  for (const file of readdirSync(folder)
    .filter((name) => /-(complaints|findings)\.yaml$/.test(name))
    .sort()) {
    const { rows } = fileSchema.parse(parse(readFileSync(path.join(folder, file), 'utf8')));
    for (const row of rows) {
      const key = `${row.id} ${JSON.stringify(row.with ?? {})}`;
      grouped.set(key, [...(grouped.get(key) ?? []), row]);
    }
  }
  return [...grouped.values()].map((rows) => merged(rows, today));
}

function merged(rows: readonly z.infer<typeof rowSchema>[], today: (id: string) => string): Expectation {
  const normalised = rows.map(({ from }) => {
    const total = Object.values(from).reduce((sum, share) => sum + share, 0);
    const shares = new Map<string, number>();
    for (const [id, share] of Object.entries(from)) {
      const now = id === SOMETHING_ELSE ? id : today(id);
      shares.set(now, (shares.get(now) ?? 0) + share / total);
    }
    return shares;
  });
  const ids = [...new Set(normalised.flatMap((shares) => [...shares.keys()]))];
  const middle = ids.map((id) => [id, pooled(normalised.map((shares) => shares.get(id) ?? 0))] as const);
  const total = middle.reduce((sum, [, share]) => sum + share, 0);
  const known = middle.filter(([id]) => id !== SOMETHING_ELSE);
  const [first] = rows;
  const counts = rows.flatMap(({ perThousand }) => perThousand ?? []);
  return {
    id: first?.id ?? '',
    conditions: first?.with ?? {},
    perThousand: counts.length > 0 ? median(counts) : null,
    readers: rows.length,
    shares: new Map(known.map(([id, share]) => [id, share / total])),
    spread: new Map(
      known.map(([id]) => {
        const given = normalised.map((shares) => shares.get(id) ?? 0);
        return [id, Math.max(...given) - Math.min(...given)];
      }),
    ),
    somethingElse: (middle.find(([id]) => id === SOMETHING_ELSE)?.[1] ?? 0) / total,
  };
}

/** The median; where most readers leave a cause out, half their mean, so that one reader's thought is not lost. */
function pooled(shares: readonly number[]): number {
  const middle = median(shares);
  return middle > 0 ? middle : shares.reduce((sum, share) => sum + share, 0) / shares.length / 2;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? 0) + upper) / 2;
}
