import { messages } from '../messages.ts';

export const m = messages('bench', {
  answerTheQuickestCheckEachTime:
    'Answer the quickest check each time, until one thing to do stands out, with its time and its chance.',
  bench: 'Bench',
  by: 'By {day}',
  case: 'Case {caseNumber}',
  caseDemo: 'Case {caseNumber}, demo',
  closeTheCaseWithWhatIt:
    'Close the case with what it was. The casebook shows what comes back, and on which printer.',
  dangerousMachines: 'Dangerous machines',
  doNotUse: 'Do not use: {printer}',
  doNotUseTheMachineOfCase: 'Do not use the machine of case {caseNumber}: its printer is not named',
  for: 'For {age}',
  howItWorks: 'How it works',
  loadTheDemoShop: 'Load the demo shop',
  loadingTheDemoShop: 'Loading the demo shop',
  noOpenCasesClosedOnesAre: 'No open cases. Closed ones are in the <link>casebook</link>.',
  noPrintersYetAddYoursIn:
    'No printers yet. <link>Add yours in the shop</link>, and they stand here with their state.',
  openCasesOfNoPrinter: 'Open cases of no printer',
  printers: 'Printers',
  printersByState: 'Printers by state',
  sayWhatIsWrongWithA: 'Say what is wrong with a print, in your own words or by picture.',
  sinceCase: 'Since {when} · {turn} · Case {caseNumber}{reason}',
  remedyWait: '{remedy}. {wait}',
  somethingIsWrongWith: 'Something is wrong<part> with {printer}</part>',
  somethingIsWrongWithAPrint: 'Something is wrong with a print',
  startACase: 'Start a case',
  thePrintersAndOpenCases: 'the printers and open cases',
  waits: 'Waits {age}',
  waitsFor: 'Waits for {part}',
  wasDue: 'Was due {day}',
  yourOwnPrintersGoIntoThe:
    'Your own printers go into the <link>shop</link>: a case then starts with what is known of them.',
});
