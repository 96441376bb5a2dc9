import { documentTexts } from '../words/en/documents.ts';
import type { MessageValue } from '../words/message.ts';
import { sayValue, type Sayer } from '../words/say-words.ts';
import type { Cell, ReportColumn, ReportDocument, ReportSection, ReportTable } from './report-document.ts';
import { figureInWords, shareInWords } from './report-words.ts';

const { m } = documentTexts;
/** Puts into words, as text of HTML. */
type Say = (value: MessageValue) => string;

/**
 * One file that needs nothing beside it: no script, no address, styles and pictures inside. The margins leave the same
 * column of text on A4 and Letter; rows are never cut, and a table's head stands again on every sheet.
 */
const STYLES = `
:root { color-scheme: light; font: 11pt/1.4 "Atkinson Hyperlegible Next", "Segoe UI", "Helvetica Neue", Arial, sans-serif; }
body { margin: 2rem auto; max-width: 62rem; padding: 0 1.25rem; color: #16191d; background: #fff; overflow-wrap: break-word; }
h1 { margin: 0; font-size: 1.8em; line-height: 1.2; }
h2 { margin: 1.6em 0 .4em; font-size: 1.2em; break-after: avoid; }
.subtitle, footer { color: #454b52; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2em 1.2em; margin: 1em 0 0; }
dt { font-weight: 700; } dd { margin: 0; }
table { width: 100%; border-collapse: collapse; font-size: .88em; line-height: 1.3; }
thead { display: table-header-group; }
th, td { padding: .35em .6em .35em 0; border-bottom: 1px solid #b6bcc3; text-align: left; vertical-align: top; }
th { border-bottom-color: #454b52; white-space: nowrap; }
td { overflow-wrap: anywhere; min-width: 3.5em; }
.short { white-space: nowrap; }
.figure { min-width: 0; text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
tr, figure { break-inside: avoid; }
figure { display: inline-block; margin: .5em 1em .5em 0; max-width: 20rem; vertical-align: top; }
img { max-width: 100%; }
footer { margin-top: 2em; padding-top: .5em; border-top: 1px solid #b6bcc3; font-size: .85em; }
@page { margin: 16mm 15mm 18mm; }
@media screen and (max-width: 40rem) { .wide { overflow-x: auto; } .wide table { min-width: 40rem; } dl { grid-template-columns: 1fr; } }
@media print { :root { font-size: 9.5pt; } body { margin: 0; padding: 0; max-width: none; } }
`;

/** The document as HTML, said in a language whose tag is given. */
export function documentHtml(
  { title, subtitle, facts, sections, footer }: ReportDocument,
  sayer: Sayer,
  language: string,
): string {
  const say: Say = (value) => escaped(sayValue(value, sayer));
  return [
    '<!doctype html>',
    `<html lang="${escaped(language)}">`,
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    // Should anything in it ever look like a script or an address, the browser passes over it.
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
    `<title>${say(title)}</title>`,
    `<style>${STYLES}</style>`,
    '</head>',
    '<body>',
    `<h1>${say(title)}</h1>`,
    `<p class="subtitle">${say(subtitle)}</p>`,
    facts.length === 0
      ? ''
      : `<dl>${facts.map(([label, value]) => `<dt>${say(label)}</dt><dd>${say(value)}</dd>`).join('')}</dl>`,
    ...sections.map((section) => sectionHtml(section, say)),
    `<footer>${say(footer)}</footer>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function sectionHtml(
  { heading, paragraphs = [], table, ifEmpty = m.none(), pictures = [] }: ReportSection,
  say: Say,
): string {
  const isEmpty = table !== undefined && table.rows.length === 0;
  return [
    `<section><h2>${say(heading)}</h2>`,
    ...paragraphs.map((text) => `<p>${say(text)}</p>`),
    isEmpty ? `<p>${say(ifEmpty)}</p>` : table ? tableHtml(table, say(heading), say) : '',
    ...pictures.map(
      ({ base64, caption }) =>
        `<figure><img src="data:image/jpeg;base64,${base64}" alt="${say(caption)}"><figcaption>${say(caption)}</figcaption></figure>`,
    ),
    '</section>',
  ].join('\n');
}

function tableHtml({ columns, rows }: ReportTable, caption: string, say: Say): string {
  const kind = (index: number) => {
    const { isFigure, isShare, isShort } = columns[index] ?? {};
    return isFigure || isShare ? ' class="figure"' : isShort ? ' class="short"' : '';
  };
  const head = columns.map(({ label }, i) => `<th scope="col"${kind(i)}>${say(label)}</th>`).join('');
  const body = rows
    .map(
      (row) =>
        `<tr>${row.map((cell, i) => `<td${kind(i)}>${say(shown(cell, columns[i]))}</td>`).join('')}</tr>`,
    )
    .join('\n');
  return `<div class="wide"><table aria-label="${caption}"><thead><tr>${head}</tr></thead>\n<tbody>${body}</tbody></table></div>`;
}

function shown(cell: Cell, column: ReportColumn | undefined): MessageValue {
  if (cell === null) return '';
  if (typeof cell !== 'number') return cell;
  return column?.isShare ? shareInWords(cell) : figureInWords(cell);
}

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}
