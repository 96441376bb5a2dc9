import type { NamedNetwork } from './named-network.ts';

const DOCTYPE = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE BIF [
  <!ELEMENT BIF ( NETWORK )*>
  <!ATTLIST BIF VERSION CDATA #REQUIRED>
  <!ELEMENT NETWORK ( NAME, ( PROPERTY | VARIABLE | DEFINITION )* )>
  <!ELEMENT NAME (#PCDATA)>
  <!ELEMENT VARIABLE ( NAME, ( OUTCOME | PROPERTY )* )>
  <!ATTLIST VARIABLE TYPE (nature|decision|utility) "nature">
  <!ELEMENT OUTCOME (#PCDATA)>
  <!ELEMENT DEFINITION ( FOR | GIVEN | TABLE | PROPERTY )*>
  <!ELEMENT FOR (#PCDATA)>
  <!ELEMENT GIVEN (#PCDATA)>
  <!ELEMENT TABLE (#PCDATA)>
  <!ELEMENT PROPERTY (#PCDATA)>
]>
`;

/**
 * A network as XMLBIF 0.3 (Cozman, The Interchange Format for Bayesian Networks (1998)). A table lists the given
 * variables' states with the first slowest, the variable's own states fastest. Numbers are written so that reading
 * gives the same ones back.
 */
export function writeXmlbif({ name, variables, outcomes }: NamedNetwork): string {
  const lines = ['<BIF VERSION="0.3">', '<NETWORK>', `<NAME>${escaped(name)}</NAME>`];
  variables.forEach(({ id }, index) => {
    lines.push('<VARIABLE TYPE="nature">', `  <NAME>${escaped(id)}</NAME>`);
    for (const outcome of outcomes[index] ?? []) lines.push(`  <OUTCOME>${escaped(outcome)}</OUTCOME>`);
    lines.push('</VARIABLE>');
  });
  for (const { id, parents, states, table } of variables) {
    lines.push('<DEFINITION>', `  <FOR>${escaped(id)}</FOR>`);
    for (const parent of parents) lines.push(`  <GIVEN>${escaped(variables[parent]?.id ?? '')}</GIVEN>`);
    lines.push('  <TABLE>');
    for (let at = 0; at < table.length; at += states)
      lines.push(`    ${table.slice(at, at + states).join(' ')}`);
    lines.push('  </TABLE>', '</DEFINITION>');
  }
  return `${DOCTYPE}${[...lines, '</NETWORK>', '</BIF>'].join('\n')}\n`;
}

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };

function escaped(text: string): string {
  return text.replace(/[&<>]/g, (character) => ESCAPES[character] ?? character);
}
