import type { FitVerdict } from '../contract/fit-verdicts.ts';
import type { Application, Judgement, MaterialFit } from '../contract/material-fit.ts';
import type { ServiceHeat } from '../knowledge/service-schema.ts';
import { judgeLooks, judgeSliding, judgeStiffness } from './body-rules.ts';
import { judgeHeat } from './heat-rule.ts';
import { judgeImpact } from './impact-rule.ts';
import { judgeSteadyLoad } from './load-rule.ts';
import type { MaterialFacts } from './material-facts.ts';
import { judgeStandIn } from './stand-in-rule.ts';
import { judgeAgents, judgeContact, judgeLight } from './surroundings-rules.ts';

/** Every demand of an application set against one material. `original` is the moulded part's polymer, if there is one. */
export function judgeMaterial(
  facts: MaterialFacts,
  application: Application,
  original: MaterialFacts | null,
  heat: ServiceHeat,
): MaterialFit {
  const judgements = [
    judgeHeat(facts, application, heat),
    judgeSteadyLoad(facts, application),
    judgeImpact(facts, application),
    judgeLight(facts, application),
    ...judgeAgents(facts, application),
    judgeSliding(facts, application),
    judgeStiffness(facts, application),
    judgeLooks(facts, application),
    judgeContact(facts, application),
    original && judgeStandIn(facts, original),
  ].filter((one): one is Judgement => one !== null);
  return {
    polymer: facts.polymer,
    label: facts.label,
    verdict: overall(judgements),
    printing: facts.printing,
    judgements,
  };
}

/** One demand not met rules a material out; one not known keeps it from being called fit. */
function overall(judgements: readonly Judgement[]): FitVerdict {
  const has = (verdict: FitVerdict) => judgements.some((one) => one.verdict === verdict);
  if (has('does-not-suit')) return 'does-not-suit';
  if (has('not-known')) return 'not-known';
  return has('suits-with-limits') ? 'suits-with-limits' : 'suits';
}
