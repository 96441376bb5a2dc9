import { messages } from '../messages.ts';

export const m = messages('reports', {
  asPdfOrAsOneHtml: 'As PDF, or as one HTML file that needs nothing beside it.',
  csv: 'CSV<part> {label}</part>',
  document: 'Document',
  inTheDownloadsOfThisComputer: '{fileName}, in the downloads of this computer',
  jsonLines: 'JSON Lines<part> {label}</part>',
  month: 'Month',
  onPaperOrAsPdfFrom:
    'On paper or as PDF from the print window, or as one HTML file that needs nothing beside it.',
  paper: 'Paper',
  printOrSaveAsPdf: 'Print, or save as PDF',
  saveAsPdf: 'Save as PDF',
  saveTheDocument: 'Save the document',
  tables: 'Tables',
  working: 'Working …',
  writtenTo: 'Written to {saved}',
  writtenToWithSaved: 'Written to <strong>{saved}</strong>.',
});
