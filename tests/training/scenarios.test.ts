import { describe, expect, it } from 'vitest';
import { playPlanner } from '../../src-core/training/planner-way.ts';
import { practiceOfScenario } from '../../src-core/training/written-case.ts';
import { faultsWithChanged, shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const scenarios = [...knowledge.scenarios.values()];

describe('the written practice cases', () => {
  it('are 24 or more, and every topic has one', () => {
    expect(scenarios.length).toBeGreaterThanOrEqual(24);
    const topics = new Set(scenarios.map(({ topic }) => topic));
    expect([...knowledge.trainingTopics.keys()].filter((topic) => !topics.has(topic))).toEqual([]);
  });

  it.each(scenarios.map(({ id }) => id))('%s is solved by the planner', { timeout: 240_000 }, (id) => {
    const scenario = knowledge.scenarios.get(id);
    if (!scenario) throw new Error(id);
    const practice = practiceOfScenario(knowledge, scenario);
    const nothingLeft = new Set<number>();
    for (const complaint of practice.complaints) {
      expect(practice.levelOf(complaint, new Set(practice.causes))).toBeGreaterThan(0);
      expect(practice.levelOf(complaint, nothingLeft)).toBe(0);
    }
    const run = playPlanner(knowledge, practice);
    expect({ id, isCured: run.isCured, steps: run.steps.map(({ action }) => action) }).toMatchObject({
      id,
      isCured: true,
    });
  });

  it('are checked: a cause that is not there is said with its line', () => {
    const faults = faultsWithChanged(({ file, text }) =>
      file.endsWith('scenarios.yaml') ? text.replace('causes: [belt-loose]', 'causes: [belt-lose]') : text,
    );
    expect(faults).toHaveLength(1);
    expect(faults[0]?.message).toContain('"belt-lose"');
    expect(faults[0]?.remedy).toContain('belt-loose');
  });
});
