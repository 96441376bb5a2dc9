import { expect, it } from 'vitest';
import { emptyContext } from '../../src-core/session/case-machine.ts';
import { planOf } from '../../src-core/session/reason-about.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { faultsWithChanged, shippedKnowledge } from '../shipped-knowledge.ts';

it('refuses remedies that come after themselves or after one that is not there', () => {
  const faultsOf = (id: string, after: string) => {
    const faults = faultsWithChanged(({ text }) =>
      text.replace(`  - id: ${id}\n`, `  - id: ${id}\n    after: [${after}]\n`),
    );
    return faults.map(({ code, message }) => `${code}: ${message}`);
  };
  expect(faultsOf('clean-probe', 'replace-probe')).toContainEqual(
    'remedies-in-a-ring: remedy "clean-probe" comes after itself',
  );
  expect(faultsOf('clean-probe', 'clean-prob')).toContainEqual(
    expect.stringMatching(/^dangling-id: .*"clean-prob"/),
  );
});

it('renews a probe only once what is milder has been tried', () => {
  const knowledge = shippedKnowledge();
  const context = {
    ...emptyContext,
    intake: {
      complaints: [{ observation: 'probe-repeats-badly', value: 'present' }],
      conditions: {},
    } as never,
    findings: { 'probe-repeats-badly': 'present' },
  };
  const offered = (tried: readonly { remedy: string; outcome: 'not-cured' }[]) => {
    const problem = caseProblem(knowledge, { ...context, tried });
    const plan = planOf(problem);
    if (plan.kind !== 'ok') throw new Error(plan.kind);
    return plan.next.remedies.map(({ remedy }) => problem.remedies[remedy]?.id);
  };
  expect(offered([])).toContain('clean-probe');
  expect(offered([])).not.toContain('replace-probe');
  const cleaned = { remedy: 'clean-probe', outcome: 'not-cured' } as const;
  expect(offered([cleaned])).not.toContain('replace-probe');
  expect(offered([cleaned, { remedy: 'tighten-probe-mount', outcome: 'not-cured' }])).toContain(
    'replace-probe',
  );
});
