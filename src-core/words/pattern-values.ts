/** What may stand in for a placeholder. Nothing is written where there is nothing. */
export type Value = string | number | null | undefined;

type Trimmed<S extends string> = S extends ` ${infer Rest}` | `\n${infer Rest}` ? Trimmed<Rest> : S;

/** Reads text up to the brace that closes it: placeholders found, and what comes after. */
type InText<S extends string, Found> = S extends `${infer Before}}${infer After}`
  ? Before extends `${string}{${infer Open}`
    ? InArgument<`${Open}}${After}`, Found>
    : [Found, After]
  : [Found, ''];

type InArgument<S extends string, Found> = S extends `${infer Head}}${infer After}`
  ? Head extends `${infer Name},${infer Kind},${string}`
    ? S extends `${Name},${Kind},${infer Branches}`
      ? InBranches<
          Branches,
          Found & Record<Name, Trimmed<Kind> extends 'plural' | 'selectordinal' ? number : string>
        >
      : never
    : InText<After, Found & Record<Head, Value>>
  : [Found, ''];

type InBranches<S extends string, Found> =
  Trimmed<S> extends `}${infer After}`
    ? InText<After, Found>
    : S extends `${string}{${infer Branch}`
      ? InText<Branch, Found> extends [infer Next, infer After extends string]
        ? InBranches<After, Next>
        : never
      : [Found, ''];

/** The placeholders of a text in the syntax of ICU MessageFormat, each with what it takes; a number where it chooses a plural. */
export type ValuesOf<S extends string> = InText<S, unknown>[0];
