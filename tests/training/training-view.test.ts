import { inEnglish } from '../../src-core/words/in-english.ts';
import { describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { drawPracticeCase } from '../../src-core/training/practice-case.ts';
import { playPractice } from '../../src-core/training/practice-run.ts';
import { buildTrainingView } from '../../src-core/training/training-view.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const ids = [...knowledge.causes.keys()];

function trueCauses(seed: number): readonly string[] {
  return drawPracticeCase(knowledge, seed, null).causes.map((index) => ids[index] ?? '');
}

/** The first remedy that leaves one complaint less, with the seed of its practice case. */
function helpingRemedy(): { seed: number; remedy: string } {
  for (let seed = 1; seed <= 40; seed++) {
    const practice = drawPracticeCase(knowledge, seed, null);
    if (practice.causes.length < 2) continue;
    const truth = trueCauses(seed);
    for (const { id: remedy, removes } of knowledge.remedies.values()) {
      if (!removes.some(({ cause }) => truth.includes(cause))) continue;
      const { steps } = playPractice(knowledge, practice, [{ kind: 'remedy', remedy }], () => 1);
      if (steps[0]?.result === 'better') return { seed, remedy };
    }
  }
  throw new Error('no practice case in which a remedy helps in part');
}

function remarksAfter(seed: number, remedies: readonly string[], cause: string, guide = knowledge): string[] {
  const actions = [
    ...remedies.map((remedy) => ({ kind: 'remedy' as const, remedy })),
    { kind: 'name-cause' as const, cause },
  ];
  return buildTrainingView(guide, { seed, family: null, actions }).score?.remarks.map(inEnglish) ?? [];
}

describe('B6: the remarks on a practice case', () => {
  it('do not say of a remedy that made it better that it changed nothing', () => {
    const { seed, remedy } = helpingRemedy();
    const [truth = ''] = trueCauses(seed);
    expect(remarksAfter(seed, [remedy], truth).join(' ')).not.toContain('changed nothing');
    // The same remedy again, with its cause gone.
    expect(remarksAfter(seed, [remedy, remedy], truth).join(' ')).toContain('1 remedy changed nothing');
  });

  it('call a lower grade of the same complaint better', () => {
    const graded = [...knowledge.observations.keys()].findIndex((id) => knowledge.levelsOf(id).length > 2);
    const [remedy] = knowledge.remedies.keys();
    const practice = {
      conditions: {},
      causes: [0, 1],
      complaints: [graded],
      levelOf: (_: number, left: ReadonlySet<number>) => left.size,
      removes: (_: string, cause: number) => cause === 0,
    };
    const { steps, isCured } = playPractice(
      knowledge,
      practice,
      [{ kind: 'remedy', remedy: remedy ?? '' }],
      () => 1,
    );
    expect([steps[0]?.result, isCured]).toEqual(['better', false]);
  });

  it('name the check that tells two causes apart which reach it only through mechanisms', () => {
    const guide = onlyMechanisms(knowledge);
    const [truth = -1] = drawPracticeCase(guide, 3, null).causes;
    const drivenBy = (cause: number) =>
      guide.graph.mechanisms.map(({ links }) => links.some((link) => link.cause === cause)).join();
    const named = ids.findIndex((_, index) => drivenBy(index) !== drivenBy(truth));
    expect(remarksAfter(3, [], ids[named] ?? '', guide).join(' ')).toContain('would have told them apart');
  });
});

/** The guide with nothing but mechanisms between causes and what can be seen. */
function onlyMechanisms(guide: Knowledge): Knowledge {
  const observations = guide.graph.observations.map(({ id, leak, links }) => ({
    id,
    leak,
    links: links.filter(({ from }) => from.kind === 'mechanism'),
  }));
  return { ...guide, graph: { ...guide.graph, observations } };
}
