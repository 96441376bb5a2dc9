import { createRequire } from 'node:module';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';

interface WebpplModule {
  run(code: string, done: (state: unknown, value: unknown) => void, options?: object): void;
}

/** webppl defines global names when it is loaded, so it is loaded on demand only. */
function loadWebppl(): WebpplModule {
  return createRequire(import.meta.url)('webppl') as WebpplModule;
}

/**
 * Posterior of every cause by webppl's exact enumeration. The program draws each cause, works out each observed gate's
 * distribution given the causes (mechanisms drawn too), and weighs by the findings.
 */
export function webpplPosterior(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
): { readonly posterior: number[]; readonly milliseconds: number } {
  const code = program(model, priors, evidence);
  const webppl = loadWebppl();
  let posterior: number[] = [];
  const start = performance.now();
  webppl.run(code, (_state, value) => {
    posterior = value as number[];
  });
  return { posterior, milliseconds: performance.now() - start };
}

function program(model: GraphModel, priors: readonly number[], evidence: readonly GraphEvidence[]): string {
  const lines: string[] = [];
  model.causes.forEach((_, index) => lines.push(`var c${index} = flip(${priors[index] ?? 0});`));
  model.mechanisms.forEach((mechanism, index) => {
    const silent = mechanism.links.map((link) => `(c${link.cause} ? ${1 - link.probability} : 1)`);
    lines.push(`var m${index} = flip(1 - ${[String(1 - mechanism.leak), ...silent].join(' * ')});`);
  });
  for (const finding of evidence) {
    if (finding.kind !== 'level') throw new Error('the peer takes levels only');
    const observation = model.observations[finding.observation];
    if (!observation) throw new Error(`no observation ${finding.observation}`);
    const atMost = (level: number) =>
      level < 0
        ? '0'
        : [
            String(sumTo(observation.leak, level)),
            ...observation.links.map(
              ({ from, levels }) =>
                `(${from.kind === 'cause' ? 'c' : 'm'}${from.index} ? ${sumTo(levels, level)} : 1)`,
            ),
          ].join(' * ');
    lines.push(`factor(Math.log(${atMost(finding.level)} - ${atMost(finding.level - 1)}));`);
  }
  lines.push(`return [${model.causes.map((_, index) => `c${index}`).join(', ')}];`);
  return `
    var model = function() { ${lines.join('\n')} };
    var joint = Infer({ method: 'enumerate', model: model });
    map(function(i) { return expectation(joint, function(x) { return x[i] ? 1 : 0; }); }, _.range(${model.causes.length}));
  `;
}

function sumTo(values: readonly number[], last: number): number {
  return last >= values.length - 1 ? 1 : values.slice(0, last + 1).reduce((sum, value) => sum + value, 0);
}
