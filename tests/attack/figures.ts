import { appendFileSync } from 'node:fs';

/** Keeps a figure for the report of `npm run attack`; nothing where none is asked for. */
export function figure(name: string, value: string): void {
  const file = process.env['BEADWRIGHT_FIGURES'];
  if (file) appendFileSync(file, `${JSON.stringify({ name, value })}\n`);
}
