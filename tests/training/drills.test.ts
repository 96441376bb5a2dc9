import { describe, expect, it } from 'vitest';
import { DRILL_KINDS } from '../../src-core/contract/drill-kinds.ts';
import { applicationSchema } from '../../src-core/contract/material-fit.ts';
import { buildDrill } from '../../src-core/training/drills/drill.ts';
import { DRILL_PARTS, materialDrill } from '../../src-core/training/drills/material-drill.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

describe.each(DRILL_KINDS)('the drill "%s"', (drill) => {
  it('asks fair questions: of the choices some are right and some are wrong', { timeout: 120_000 }, () => {
    for (const seed of SEEDS) {
      const view = buildDrill(knowledge, drill, seed, null);
      expect(view.graded).toBeNull();
      // An answer of first choices, to be told what would have been right.
      const first = Object.fromEntries(view.questions.map(({ id, choices }) => [id, choices[0]?.id ?? '']));
      const graded = buildDrill(knowledge, drill, seed, first).graded;
      for (const [index, question] of view.questions.entries()) {
        const right = (graded?.questions[index]?.right ?? []).map(inEnglish);
        const labels = question.choices.map(({ label }) => inEnglish(label));
        expect(new Set(labels).size, `${drill} ${seed} ${question.id}`).toBe(labels.length);
        expect(right.length, `${drill} ${seed} ${question.id}`).toBeGreaterThan(0);
        expect(right.length).toBeLessThan(labels.length);
        expect(labels).toEqual(expect.arrayContaining(right));
        expect(inEnglish(graded?.questions[index]?.why ?? '')).not.toBe('');
      }
    }
  });

  it('grades right what it says is right, and wrong what is not', { timeout: 120_000 }, () => {
    const view = buildDrill(knowledge, drill, 3, null);
    const first = Object.fromEntries(view.questions.map(({ id, choices }) => [id, choices[0]?.id ?? '']));
    const told = buildDrill(knowledge, drill, 3, first).graded?.questions ?? [];
    const pick = (isRight: boolean) =>
      Object.fromEntries(
        view.questions.map(({ id, choices }, index) => [
          id,
          choices.find(
            ({ label }) => told[index]?.right.map(inEnglish).includes(inEnglish(label)) === isRight,
          )?.id ?? '',
        ]),
      );
    expect(buildDrill(knowledge, drill, 3, pick(true)).graded?.isRight).toBe(true);
    const wrong = buildDrill(knowledge, drill, 3, pick(false)).graded;
    expect(wrong?.questions.every(({ isRight }) => !isRight)).toBe(true);
  });

  it('is the same for the same seed and differs from others', { timeout: 120_000 }, () => {
    const words = SEEDS.map((seed) =>
      JSON.stringify({ ...buildDrill(knowledge, drill, seed, null), seed: 0 }),
    );
    expect(JSON.stringify({ ...buildDrill(knowledge, drill, 1, null), seed: 0 })).toBe(words[0]);
    expect(new Set(words).size).toBeGreaterThan(3);
  });
});

describe.each(DRILL_PARTS)('the part $what.id of the drill on materials', ({ what, use }) => {
  it('bears nothing that the guide does not know, and makes a fair drill', { timeout: 120_000 }, () => {
    const asked = applicationSchema.safeParse(use);
    expect(asked.error?.issues ?? []).toEqual([]);
    for (const agent of asked.data?.agents ?? [])
      expect([...knowledge.service.values()].some(({ agents }) => agents[agent] !== undefined)).toBe(true);
    const place = DRILL_PARTS.findIndex((one) => one.what === what);
    // The first number that is drawn picks the part.
    const drawn = Array.from({ length: 40 }, (_, start) => {
      let count = 0;
      return materialDrill(knowledge, () =>
        count++ === 0 ? (place + 0.5) / DRILL_PARTS.length : (start * 0.37 + count * 0.618) % 1,
      );
    });
    expect(drawn.filter((one) => one !== null).length).toBeGreaterThan(0);
  });
});
