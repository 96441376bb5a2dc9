import { catalogue } from '../message.ts';

/** What keeps a casebook shut, what should be seen to about it, and the way back. Those without a full stop end a sentence. */
export const casebookTroubleTexts = catalogue('casebookTrouble', {
  anEmptyOne: 'An empty one can be begun there too.',
  anotherHasIt: 'another program has it open',
  asideKept: 'A casebook that was set aside is kept as {file}.',
  asLeft: 'It was left as it was.',
  backupNewer: 'the backup {name} was made by a newer Beadwright. Take another one, or that program',
  backupNotGood: 'the backup {name} is not good itself: {why}. Take another one',
  backupNotOpen: 'the backup {name} did not open: {why}',
  beingMoved: 'it is being moved elsewhere just now',
  beingMovedAt: '{place}: it is being moved elsewhere just now',
  beingRestored: 'A backup is being put in the place of the casebook; it is there in a moment.',
  brokeOff: 'the connection broke off',
  busy: 'too much is being asked of it at once',
  cannotBeOpened: 'The casebook {file} cannot be opened: {why}.',
  cannotBeRead: 'The casebook {file} cannot be read: {why}. It was left untouched.',
  cannotBeReadIn:
    'The casebook in {place} cannot be read: {why}. It was left untouched; put the newest dump back into a new database.',
  cannotBeUsed: 'The database {place} cannot be used: {why}.',
  closed: 'The casebook is closed.',
  closeTheOther: 'Close the other program and try again.',
  copiesHelp: 'Copies of your own may help: put one in that place while Beadwright is closed.',
  copyNotGood: 'the copy is not good: {why}',
  createdb: 'Make it with "createdb", or set BEADWRIGHT_DATABASE right.',
  cutOff: 'The casebook {file} is empty (0 bytes): something cut it off. It was left untouched.',
  damaged: 'it is damaged ({words})',
  databaseAway:
    'The database {place} is not there: {why}. Nothing can be kept until it is back; Beadwright looks for it by itself.',
  databaseBack: 'The database {place} is back.',
  databaseBusy: 'The database is busy: {why}. Nothing was stored; try again.',
  databaseFull:
    'The disk of the database is full: nothing of this was stored. Make room and try again; what was stored before is still there.',
  databaseReadOnly: 'Nothing was stored in the database: {why}.',
  diskFull:
    'The disk is full: nothing of this was stored. Make room and try again; what was stored before is still there.',
  diskIsFull: 'the disk is full',
  dumpFolder: 'The folder of the database’s dumps ({folder}) cannot be read: {why}.',
  dumpOld:
    'The newest dump of the database in {folder} is {count, plural, one {# day} other {# days}} old: look why none is made.',
  empty: 'it is empty (0 bytes)',
  encoding:
    'The database {place} keeps texts as {encoding}, not as UTF8: make one with "createdb --encoding=UTF8 --template=template0".',
  giveRight:
    'Give this user the right to write there, or start Beadwright as the one who has it; what is in the casebook is still there.',
  giveRightThere: 'Give this user the right there, or set BEADWRIGHT_DATABASE right.',
  inUse:
    'The casebook {file} is in use by another Beadwright. Close that one; this one opens the casebook by itself then.',
  inUseBy:
    'The casebook {file} is in use by another Beadwright (process {process}). Close that one; this one opens the casebook by itself then.',
  itsDiskFull: 'its disk is full',
  journalDamaged:
    'The journal of the casebook ({file}-wal) was damaged. The casebook itself is whole, but what was entered last before Beadwright ended may be missing: look at the newest cases.',
  leftUntouched: 'The casebook was left untouched.',
  listDamaged: 'the list of what was done to its form is damaged',
  lookWhetherKept: 'Look whether what was just sent was kept before you send it again.',
  machineNotFound: 'the name of its machine is not known',
  machineNotLookedUp: 'the name of its machine cannot be looked up',
  machineNotReached: 'its machine cannot be reached',
  machineSilent: 'its machine does not answer',
  makeRoom: 'Make room on that disk and try again; what is in the casebook is still there.',
  mayNotThere: 'this user may not do that there ({words})',
  moveUnfinished:
    'A casebook was being moved into {place}, and not all of it is there. Run "beadwright casebook move" again with the same words: it goes on where it was.',
  networkNotReached: 'its network cannot be reached',
  newer:
    'The casebook {file} was written by a newer Beadwright ({names}), which this one cannot read whole. Start that one, or a newer one. The casebook was left untouched.',
  newerIn:
    'The casebook in {place} was written by a newer Beadwright ({names}), which this one cannot read whole. Start that one, or a newer one. The casebook was left untouched.',
  newestGood:
    'The newest good backup is {name} with {count, plural, one {# case} other {# cases}}; restore it in the settings under Backups or with "beadwright backups restore {name}".',
  noBackup: 'There is no backup in {folder} that can be read.',
  noBackupMade: 'No backup could be made in {folder}: {why}.',
  noCasebook: 'what is in it is no casebook',
  noDatabase: 'there is no database of that name',
  noDump: 'There is no dump of the database in {folder} yet.',
  noFolder: 'its folder is not there or may not be written in',
  noneButAside:
    'There is no casebook at {file}, but {count, plural, one {one that was set aside lies} other {# that were set aside lie}} beside it.',
  noneButBackups:
    'There is no casebook at {file}, but {count, plural, one {1 backup of one lies} other {# backups of one lie}} beside it.',
  noneButJournal: 'There is no casebook at {file}, but the journal of one lies beside it.',
  noSocket: 'there is no such socket',
  readOnlyFile: 'it may only be read, not written',
  notBroughtUp: 'The casebook {file} could not be brought to today’s form: {why}.',
  notBroughtUpIn: 'The casebook in {place} could not be brought to today’s form: {why}.',
  nothingAnswers: 'nothing answers at that address',
  notLetIn: 'it does not let this user in with this password',
  notLookedFor: 'it was not looked for yet',
  notOpened: 'The casebook has not been opened.',
  onlyRead: 'it may only be read at present',
  onlyStarting: 'it is only just starting, or stopping',
  ownCheck: 'its own check says "{verdict}"',
  replaced:
    'The casebook {file} was deleted, moved or replaced while it was in use. Nothing can be kept until it is back.',
  restoreUnderWay: 'A restore is under way already; wait until it is done.',
  serverOff:
    'The database server runs with {names} off: when its machine goes down, what was kept last may be lost. Have it turned on.',
  socketShut: 'its socket may not be opened by this user',
  stillWhole: 'The casebook itself is in use and whole; older backups are still there.',
  stopped: 'it was stopped',
  tablesMissing: 'it has no {names} any more',
  tablesMissingIn:
    'The casebook in {place} has no {names} any more. It was left untouched; put the newest dump back into a new database.',
  tooManyConnections: 'it has as many connections as it allows',
  wasClosed: 'it was closed',
  withCode: '{words} ({code})',
  writingSame: 'somebody else was writing the same',
  writingTooLong: 'somebody else has been writing for too long',
});
export const casebookTrouble = casebookTroubleTexts.m;
