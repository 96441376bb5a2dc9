import type { z } from 'zod';
import { clipped } from '../../src-core/words/clipped.ts';
import { contractTexts } from '../../src-core/words/en/contract.ts';
import { faults } from '../../src-core/words/en/faults.ts';
import type { Message } from '../../src-core/words/message.ts';

const { m, texts } = contractTexts;

const SHOWN = 3;
/** Choices and names after which a list says no more to anybody. */
const LISTED = 20;

/** Own words of the schemas, by their English text: a message that says more than the kind of what is wrong. */
const OWN = new Map<string, Message>(
  Object.entries(texts)
    .filter(([, text]) => !text.includes('{'))
    .map(([key, text]) => [text, (m[key as keyof typeof texts] as () => Message)()]),
);

const KINDS: Readonly<Record<string, () => Message>> = {
  string: m.mustBeText,
  number: m.mustBeNumber,
  int: m.mustBeWhole,
  boolean: m.mustBeTrueOrFalse,
  array: m.mustBeList,
  object: m.mustBeGroup,
  record: m.mustBeGroup,
  Uint8Array: m.mustBeBytes,
};

/**
 * What does not fit a schema, for people: "events › 3 › at: it must be a time, ...", the first few places. Asks for errors that
 * carry what came in (`reportInput`): what is not there is told from what is of another kind.
 */
export function faultOfContract({ issues }: z.ZodError): Message {
  const shown = issues.slice(0, SHOWN).map((issue) => {
    const place = clipped(issue.path.join(' › '));
    const fault = faultOfIssue(issue);
    return place === '' ? fault : m.at({ place, fault });
  });
  return shown.length === 1 && shown[0] ? shown[0] : faults.several({ all: { series: shown } });
}

function faultOfIssue(issue: z.core.$ZodIssue): Message {
  const own = OWN.get(issue.message);
  if (own) return own;
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined ? m.missing() : (KINDS[issue.expected] ?? m.wrongKind)();
    case 'invalid_format':
      if (issue.format === 'datetime') return m.mustBeTime();
      return issue.format === 'date' ? m.mustBeDay() : m.notSoWritten();
    case 'invalid_value':
      if (issue.input === undefined) return m.missing();
      return m.mayBe({
        list: issue.values.slice(0, LISTED).map((one) => m.name({ name: clipped(String(one)) })),
      });
    case 'invalid_union':
      return issue.input === undefined ? m.missing() : m.noneOfKinds();
    case 'too_big':
      if (issue.origin === 'string') return m.longer({ count: Number(issue.maximum) });
      if (issue.origin === 'array') return m.more({ count: Number(issue.maximum) });
      return m.above({ most: Number(issue.maximum) });
    case 'too_small':
      if (issue.origin === 'string') return m.tooShort();
      if (issue.origin === 'array') return m.fewer({ count: Number(issue.minimum) });
      return m.below({ least: Number(issue.minimum) });
    case 'unrecognized_keys':
      return m.nobodyAsks({ keys: issue.keys.slice(0, LISTED).map(clipped) });
    case 'custom':
      return isSaid(issue.params) ? issue.params.said : m.wrongKind();
    default:
      return m.wrongKind();
  }
}

/** What a refinement says with figures of its own. */
function isSaid(params: unknown): params is { readonly said: Message } {
  return typeof params === 'object' && params !== null && 'said' in params;
}
