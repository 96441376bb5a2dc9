import { caseThenAndNow } from './handlers/then-and-now.ts';
import { caseLink, caseMerge, casePart } from './handlers/case-links.ts';
import { leadGuideUse } from './handlers/guide-use.ts';
import { caseReassign } from './handlers/reassign.ts';
import { binEmpty, binList, binRestore, caseDelete } from './handlers/bin.ts';
import { personRemove, personRename } from './handlers/people.ts';
import {
  spreadsheetImport,
  spreadsheetImports,
  spreadsheetLook,
  spreadsheetUndo,
} from './handlers/spreadsheets.ts';
import { caseSaveViews, caseViews } from './handlers/saved-views.ts';
import { reportSavePdf } from './handlers/paper.ts';
import { reportMake } from './handlers/reports.ts';
import {
  maintenanceHistory,
  maintenanceList,
  maintenanceLog,
  maintenanceSavePlan,
} from './handlers/maintenance.ts';
import { benchRead, caseLastTime } from './handlers/bench.ts';
import {
  accessChangeDevice,
  accessInvite,
  accessList,
  accessMe,
  accessRevokeDevice,
  accessSetPin,
  accessSignIn,
  accessSignOut,
} from './handlers/access.ts';
import { networkRead, networkSwitch } from './handlers/network.ts';
import type { Handlers } from './dispatcher.ts';
import { backupList, backupMake, backupRestore, casebookBeginEmpty } from './handlers/backups.ts';
import { actionCountDue, actionList, actionLog, actionOpen } from './handlers/actions.ts';
import { leadExperience, leadSaveExperience } from './handlers/experience.ts';
import { leadRecurrence, leadSaveTimeZone, leadSaveUsualHours } from './handlers/recurrence.ts';
import { leadSaveHumidity, leadSeason } from './handlers/season.ts';
import { caseList, caseProfiles, caseTags, caseTimeline } from './handlers/casebook.ts';
import {
  caseOpen,
  caseSecondThoughts,
  caseSend,
  caseView,
  caseWhyCandidate,
  caseWhyCheck,
} from './handlers/cases.ts';
import { deleteRecord } from './handlers/delete-record.ts';
import { demoLoad, demoRemove } from './handlers/demo.ts';
import { fitMaterials } from './handlers/fit.ts';
import { flowSheetCall } from './handlers/flow.ts';
import { guideCause, guideObservation, guideRead, guideStatements, hostInfo } from './handlers/guide.ts';
import {
  saveClimateCall,
  saveCostsCall,
  saveDisplayCall,
  savePersonCall,
  savePrinterCall,
  saveSpoolCall,
  shopRead,
} from './handlers/shop.ts';
import { jobBegin, jobDrop, jobEnd, jobPiece, logRead } from './handlers/jobs.ts';
import { photoKeep } from './handlers/photos.ts';
import { spoolLog, spoolRead, spoolStorage } from './handlers/spools.ts';
import {
  trainingClassCall,
  trainingDrill,
  trainingExport,
  trainingForget,
  trainingFreePhoto,
  trainingKeep,
  trainingOptions,
  trainingPhotos,
  trainingRecord,
  trainingSecondThoughts,
  trainingView,
  trainingWhyCandidate,
  trainingWhyCheck,
} from './handlers/training.ts';
import { voteAsk, voteCast, voteEnd, voteLook, voteReveal } from './handlers/votes.ts';
import { caseExport, caseImport } from './handlers/transfer.ts';
import { workLook, workStop } from './handlers/work.ts';

/** One handler a call: the only place where core meets casebook. */
export const handlers: Handlers = {
  'host:info': hostInfo,
  'guide:read': guideRead,
  'guide:cause': guideCause,
  'guide:observation': guideObservation,
  'guide:statements': guideStatements,
  'bench:read': benchRead,
  'shop:read': shopRead,
  'shop:save-printer': savePrinterCall,
  'shop:save-spool': saveSpoolCall,
  'shop:save-person': savePersonCall,
  'shop:delete-record': deleteRecord,
  'shop:save-climate': saveClimateCall,
  'shop:save-costs': saveCostsCall,
  'shop:save-display': saveDisplayCall,
  'spool:read': spoolRead,
  'spool:storage': spoolStorage,
  'spool:log': spoolLog,
  'job:begin': jobBegin,
  'job:piece': jobPiece,
  'job:end': jobEnd,
  'job:drop': jobDrop,
  'work:look': workLook,
  'work:stop': workStop,
  'log:read': logRead,
  'flow:sheet': flowSheetCall,
  'fit:materials': fitMaterials,
  'case:open': caseOpen,
  'case:view': caseView,
  'case:send': caseSend,
  'photo:keep': photoKeep,
  'case:why-candidate': caseWhyCandidate,
  'case:why-check': caseWhyCheck,
  'case:second-thoughts': caseSecondThoughts,
  'case:last-time': caseLastTime,
  'case:list': caseList,
  'case:reassign': caseReassign,
  'case:merge': caseMerge,
  'case:part': casePart,
  'case:link': caseLink,
  'case:timeline': caseTimeline,
  'case:then-and-now': caseThenAndNow,
  'case:export': caseExport,
  'case:import': caseImport,
  'case:profiles': caseProfiles,
  'case:tags': caseTags,
  'case:views': caseViews,
  'case:save-views': caseSaveViews,
  'case:delete': caseDelete,
  'bin:list': binList,
  'bin:restore': binRestore,
  'bin:empty': binEmpty,
  'spreadsheet:look': spreadsheetLook,
  'spreadsheet:import': spreadsheetImport,
  'spreadsheet:imports': spreadsheetImports,
  'spreadsheet:undo': spreadsheetUndo,
  'person:rename': personRename,
  'person:remove': personRemove,
  'lead:experience': leadExperience,
  'lead:save-experience': leadSaveExperience,
  'lead:guide-use': leadGuideUse,
  'lead:recurrence': leadRecurrence,
  'lead:season': leadSeason,
  'lead:save-humidity': leadSaveHumidity,
  'lead:save-time-zone': leadSaveTimeZone,
  'lead:save-usual-hours': leadSaveUsualHours,
  'action:list': actionList,
  'action:count-due': actionCountDue,
  'action:open': actionOpen,
  'action:log': actionLog,
  'maintenance:list': maintenanceList,
  'maintenance:history': maintenanceHistory,
  'maintenance:log': maintenanceLog,
  'maintenance:save-plan': maintenanceSavePlan,
  'report:make': reportMake,
  'report:save-pdf': reportSavePdf,
  'training:view': trainingView,
  'training:why-candidate': trainingWhyCandidate,
  'training:why-check': trainingWhyCheck,
  'training:second-thoughts': trainingSecondThoughts,
  'training:options': trainingOptions,
  'training:drill': trainingDrill,
  'training:photos': trainingPhotos,
  'training:free-photo': trainingFreePhoto,
  'training:record': trainingRecord,
  'training:class': trainingClassCall,
  'training:keep': trainingKeep,
  'training:export': trainingExport,
  'training:forget': trainingForget,
  'vote:look': voteLook,
  'vote:ask': voteAsk,
  'vote:cast': voteCast,
  'vote:reveal': voteReveal,
  'vote:end': voteEnd,
  'demo:load': demoLoad,
  'demo:remove': demoRemove,
  'backup:list': backupList,
  'casebook:begin-empty': casebookBeginEmpty,
  'backup:make': backupMake,
  'backup:restore': backupRestore,
  'access:me': accessMe,
  'access:sign-in': accessSignIn,
  'access:sign-out': accessSignOut,
  'access:list': accessList,
  'access:invite': accessInvite,
  'access:change-device': accessChangeDevice,
  'access:revoke-device': accessRevokeDevice,
  'access:set-pin': accessSetPin,
  'network:read': networkRead,
  'network:switch': networkSwitch,
};
