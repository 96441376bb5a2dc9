import fc from 'fast-check';
import { z } from 'zod';
import { hostile } from './hostile-text.ts';

/** The part of JSON Schema that the contract's schemas come out as. */
interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Schema | boolean;
  readonly propertyNames?: Schema;
  readonly items?: Schema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly maximum?: number;
}

/** Numbers at the edge of what a number can be. */
const EDGES = [0, -0, -1, 1, 5e-324, 1e-320, 1e308, -1e308, 0.1 + 0.2, 2 ** 53, 1e21, -273.15];
const TIMES = [
  '2026-03-01T08:00:00.000Z',
  '0000-01-01T00:00:00Z',
  '0026-05-05T00:00:00Z',
  '9999-12-31T23:59:59Z',
];
const WORDS = [
  'constructor',
  '__proto__',
  'toString',
  '',
  ' ',
  '180..200',
  'NaN',
  '\u0000',
  '\ud800',
  ...hostile.unseen,
  ...Object.values(hostile).filter((one) => typeof one === 'string'),
];

/**
 * Inputs for a call, drawn from its own schema: mostly of the right shape, with ids that are there (`known`) and values at
 * the edges, so that they come through the gate and into the handlers; now and then anything whatever.
 */
export function inputsOf(schema: z.ZodType, known: readonly string[]): fc.Arbitrary<unknown> {
  // What stands in several places is described once: written out, messages within messages grow with the power of their depth.
  const described = z.toJSONSchema(schema, {
    io: 'input',
    unrepresentable: 'any',
    reused: 'ref',
  }) as Schema;
  const from = { known, definitions: described.$defs ?? {}, made: new Map<string, fc.Arbitrary<unknown>>() };
  return fc.oneof(
    { weight: 12, arbitrary: fitting(described, from) },
    { weight: 1, arbitrary: fc.anything() },
  );
}

interface DrawnFrom {
  /** Ids that are there. */
  readonly known: readonly string[];
  readonly definitions: Readonly<Record<string, Schema>>;
  /** What was made of definitions so far. */
  readonly made: Map<string, fc.Arbitrary<unknown>>;
}

function defined(reference: string, from: DrawnFrom): fc.Arbitrary<unknown> {
  const name = reference.replace('#/$defs/', '');
  const definition = from.definitions[name];
  if (!definition) throw new Error(`the schema refers to ${reference}, which it does not define`);
  const made = from.made.get(name) ?? fitting(definition, from);
  from.made.set(name, made);
  return made;
}

function fitting(schema: Schema, from: DrawnFrom): fc.Arbitrary<unknown> {
  if (schema.$ref !== undefined) return defined(schema.$ref, from);
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices) return fc.oneof(...choices.map((one) => fitting(one, from)));
  if (schema.allOf) return fitting(Object.assign({}, ...schema.allOf) as Schema, from);
  if ('const' in schema) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  switch (schema.type) {
    case 'object':
      return objects(schema, from);
    case 'array': {
      const { minItems = 0, maxItems = 4 } = schema;
      return fc.array(fitting(schema.items ?? {}, from), {
        minLength: minItems,
        maxLength: Math.max(minItems, Math.min(maxItems, 4)),
      });
    }
    case 'string':
      return strings(schema, from);
    case 'integer':
    case 'number':
      return numbers(schema);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    default:
      return fc.anything();
  }
}

function objects(schema: Schema, from: DrawnFrom): fc.Arbitrary<unknown> {
  const { properties, additionalProperties, required = [] } = schema;
  if (!properties)
    return fc.dictionary(
      strings(schema.propertyNames ?? {}, from),
      typeof additionalProperties === 'object' ? fitting(additionalProperties, from) : fc.anything(),
      { maxKeys: 4 },
    );
  const model = Object.fromEntries(Object.entries(properties).map(([key, one]) => [key, fitting(one, from)]));
  return fc.record(model, { requiredKeys: required as never[] });
}

function strings({ pattern, format, maxLength = 60 }: Schema, from: DrawnFrom): fc.Arbitrary<string> {
  const short = (words: readonly string[]) => words.filter((word) => word.length <= maxLength);
  const any = fc.oneof(fc.constantFrom(...short(WORDS)), fc.string({ maxLength: Math.min(maxLength, 60) }));
  if (format === 'date-time') return fc.constantFrom(...TIMES);
  if (format === 'date') return fc.constantFrom('2026-03-01', '0001-01-01', '9999-12-31');
  const fits =
    pattern === undefined ? from.known : from.known.filter((word) => new RegExp(pattern).test(word));
  const drawn = pattern === undefined ? any : fc.oneof(fc.stringMatching(new RegExp(pattern)), any);
  return fits.length === 0 ? drawn : fc.oneof({ weight: 5, arbitrary: fc.constantFrom(...fits) }, drawn);
}

function numbers({ type, minimum = -1e308, maximum = 1e308 }: Schema): fc.Arbitrary<number> {
  const edges = [...EDGES, minimum, maximum].filter((value) => value >= minimum && value <= maximum);
  const within =
    type === 'integer'
      ? fc.integer({ min: Math.max(minimum, -(2 ** 31)), max: Math.min(maximum, 2 ** 31 - 1) })
      : fc.double({ min: minimum, max: maximum, noNaN: true });
  return fc.oneof(
    within,
    fc.constantFrom(...edges.filter((one) => type !== 'integer' || Number.isInteger(one)), minimum),
  );
}
