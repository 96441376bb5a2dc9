import type { Component } from 'svelte';
import type { IconName } from '../components/Icon.svelte';
import { m } from '../messages/en/navigation.ts';

export interface Section {
  readonly path: string;
  readonly label: string;
  /** First parts of the addresses that belong to it. */
  readonly covers: readonly string[];
}

/** The three places of the program, by who stands there, and the sections of each. */
export const PLACES: readonly {
  readonly id: string;
  readonly label: string;
  /** Where there is no room for more. */
  readonly short: string;
  readonly icon: IconName;
  readonly sections: readonly [Section, ...Section[]];
}[] = [
  {
    id: 'machine',
    label: m.atTheMachine(),
    short: m.machine(),
    icon: 'machine',
    sections: [
      { path: 'bench', label: m.bench(), covers: ['bench', 'case', 'printer'] },
      { path: 'intake', label: m.newCase(), covers: ['intake'] },
    ],
  },
  {
    id: 'lead',
    label: m.lead(),
    short: m.lead(),
    icon: 'lead',
    sections: [
      { path: 'casebook', label: m.casebook(), covers: ['casebook', 'timeline', 'spreadsheet', 'bin'] },
      { path: 'inbox', label: m.inbox(), covers: ['inbox'] },
      {
        path: 'recurrence',
        label: m.whatComesBack(),
        covers: ['recurrence', 'meeting', 'experience', 'guide-use'],
      },
      { path: 'maintenance', label: m.maintenance(), covers: ['maintenance'] },
      { path: 'shop', label: m.shop(), covers: ['shop', 'spool', 'labels', 'printer-codes', 'devices'] },
    ],
  },
  {
    id: 'learn',
    label: m.learnAndLookUp(),
    short: m.lookUp(),
    icon: 'learn',
    sections: [
      { path: 'guide', label: m.guide(), covers: ['guide'] },
      { path: 'materials', label: m.materials(), covers: ['materials'] },
      { path: 'flow', label: m.flowSheet(), covers: ['flow'] },
      { path: 'learn', label: m.course(), covers: ['learn', 'drill', 'checklist', 'sign-off'] },
      { path: 'practice', label: m.practice(), covers: ['practice'] },
      { path: 'class', label: m.class(), covers: ['class', 'session', 'vote'] },
    ],
  },
];

type ScreenModule = { readonly default: Component<Record<string, unknown>> };

export interface Screen {
  /** Changes when the screen is to start afresh. */
  readonly key: string;
  readonly title: string;
  /** Brings the screen's code; once it is there, at once. */
  readonly load: () => Promise<ScreenModule>;
  readonly props: Record<string, unknown>;
}

/** The screen of an address; an unknown address leads to the bench. Each is a file of its own in the build. */
export function screenFor(parts: readonly string[]): Screen {
  const [first = 'bench', second = '', third = ''] = parts;
  const show = (
    key: string,
    title: string,
    load: () => Promise<{ readonly default: unknown }>,
    props: Record<string, unknown> = {},
  ): Screen => ({ key, title, load: load as () => Promise<ScreenModule>, props });
  switch (first) {
    case 'intake':
      return show(`intake/${second}`, m.newCase(), () => import('../screens/intake/IntakeScreen.svelte'), {
        printerId: second,
      });
    case 'case':
      return show(`case/${second}`, m.case(), () => import('../screens/case/CaseScreen.svelte'), {
        caseId: second,
      });
    case 'casebook':
      return show('casebook', m.casebook(), () => import('../screens/casebook/CaseListScreen.svelte'));
    case 'timeline':
      return show(
        `timeline/${second}`,
        m.caseTimeline(),
        () => import('../screens/casebook/TimelineScreen.svelte'),
        { caseId: second },
      );
    case 'inbox':
      return show('inbox', m.inbox(), () => import('../screens/inbox/InboxScreen.svelte'));
    case 'recurrence':
      return show(
        'recurrence',
        m.whatComesBack(),
        () => import('../screens/recurrence/RecurrenceScreen.svelte'),
      );
    case 'meeting':
      return show('meeting', m.mondaysMeeting(), () => import('../screens/recurrence/MeetingScreen.svelte'));
    case 'experience':
      return show(
        'experience',
        m.ownExperience(),
        () => import('../screens/experience/ExperienceScreen.svelte'),
      );
    case 'guide-use':
      return show('guide-use', m.theGuideInUse(), () => import('../screens/guide-use/GuideUseScreen.svelte'));
    case 'practice':
      return show(
        `practice/${second}`,
        m.practice(),
        () => import('../screens/practice/PracticeScreen.svelte'),
        { scenario: second },
      );
    case 'learn':
      return show(`learn/${second}`, m.course(), () => import('../screens/learn/LearnScreen.svelte'), {
        personId: second,
      });
    case 'sign-off':
      return show(`sign-off/${second}`, m.signOff(), () => import('../screens/learn/SignOffScreen.svelte'), {
        personId: second,
      });
    case 'checklist':
      return show('checklist', m.checklist(), () => import('../screens/learn/ChecklistScreen.svelte'));
    case 'drill':
      return show(`drill/${second}`, m.drill(), () => import('../screens/drills/DrillScreen.svelte'), {
        drill: second,
      });
    case 'class':
      return show('class', m.class(), () => import('../screens/class/ClassScreen.svelte'));
    case 'session':
      return show('session', m.groupSession(), () => import('../screens/session/SessionScreen.svelte'));
    case 'vote':
      return show('vote', m.vote(), () => import('../screens/vote/VoteScreen.svelte'));
    case 'guide':
      return show(
        `guide/${second}/${third}`,
        m.guide(),
        () => import('../screens/guide/GuideScreen.svelte'),
        {
          kind: second,
          id: third,
        },
      );
    case 'materials':
      return show('materials', m.materials(), () => import('../screens/materials/MaterialsScreen.svelte'));
    case 'flow':
      return show('flow', m.flowSheet(), () => import('../screens/flow/FlowScreen.svelte'));
    case 'spreadsheet':
      return show(
        'spreadsheet',
        m.oldCasesFromASpreadsheet(),
        () => import('../screens/spreadsheet/SpreadsheetScreen.svelte'),
      );
    case 'bin':
      return show('bin', m.bin(), () => import('../screens/casebook/BinScreen.svelte'));
    case 'maintenance':
      return show(
        'maintenance',
        m.maintenance(),
        () => import('../screens/maintenance/MaintenanceScreen.svelte'),
      );
    case 'shop':
      return show('shop', m.shop(), () => import('../screens/shop/ShopScreen.svelte'));
    case 'spool':
      return show(
        `spool/${second}/${third}`,
        m.spool(),
        () => import('../screens/spool/SpoolScreen.svelte'),
        {
          spoolId: second,
          flow: third,
        },
      );
    case 'labels':
      return show(`labels/${second}`, m.spoolLabels(), () => import('../screens/spool/LabelsScreen.svelte'), {
        spoolId: second,
      });
    case 'printer':
      return show(`printer/${second}`, m.printer(), () => import('../screens/printer/PrinterScreen.svelte'), {
        printerId: second,
      });
    case 'printer-codes':
      return show(
        'printer-codes',
        m.printerCodes(),
        () => import('../screens/printer/PrinterCodesScreen.svelte'),
      );
    case 'devices':
      return show('devices', m.devices(), () => import('../screens/devices/DevicesScreen.svelte'));
    case 'settings':
      return show('settings', m.settings(), () => import('../screens/settings/SettingsScreen.svelte'));
    default:
      return show('bench', m.bench(), () => import('../screens/bench/BenchScreen.svelte'));
  }
}
