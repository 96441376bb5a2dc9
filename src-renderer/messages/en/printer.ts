import { messages } from '../messages.ts';

export const m = messages('printer', {
  aHandScannerAtTheIntake:
    'A hand scanner at the intake picks the printer by its code. Stick it where a hand does not come near heat or moving parts to reach it.',
  itMayHaveBeenRetiredOr: 'It may have been retired, or belong to another shop’s casebook.',
  noPrinterInUse: 'No printer in use.',
  noPrinterInUseHasThis: 'No printer in use has this code',
  opensThePrintersOpenCaseOr:
    'Opens the printer’s open case, or its page, on a device that this Beadwright has let in; a hand scanner at the intake picks the printer. Stick it where a hand does not come near heat or moving parts to reach it.',
  printer: 'Printer',
  printerCodes: 'Printer codes',
  reportOfThisPrintersLife: 'Report of this printer’s life',
  somethingElseIsWrong: 'Something else is wrong',
  somethingIsWrong: 'Something is wrong',
  thePrinters: 'the printers',
  thisPrinter: 'this printer',
  toTheBench: 'To the bench',
});
