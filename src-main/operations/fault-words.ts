import type { z } from 'zod';

const SHOWN = 3;

/** What does not fit a schema, for people: "events › 3 › at: Invalid ISO datetime", the first few places. */
export function faultInWords(error: z.ZodError): string {
  return error.issues
    .slice(0, SHOWN)
    .map((issue) => {
      const place = issue.path.join(' › ');
      return place === '' ? wordsOf(issue) : `${place}: ${wordsOf(issue)}`;
    })
    .join('; ');
}

function wordsOf(issue: z.core.$ZodIssue): string {
  const figure = (value: unknown) =>
    typeof value === 'number' ? value.toLocaleString('en-GB') : String(value);
  // A message of the schema's own says more than its kind.
  if (!issue.message.startsWith('Too ') && issue.code !== 'unrecognized_keys') return issue.message;
  switch (issue.code) {
    case 'too_big':
      return issue.origin === 'string'
        ? `longer than ${figure(issue.maximum)} characters`
        : issue.origin === 'array'
          ? `more than ${figure(issue.maximum)} of them`
          : `above ${figure(issue.maximum)}, the most there can be`;
    case 'too_small':
      return issue.origin === 'string'
        ? 'empty, or too short'
        : issue.origin === 'array'
          ? `fewer than ${figure(issue.minimum)} of them`
          : `below ${figure(issue.minimum)}, the least there can be`;
    case 'unrecognized_keys':
      return `nobody asks for ${issue.keys.join(', ')} here`;
    default:
      return issue.message;
  }
}
