import type { Insertable, Selectable } from 'kysely';

/**
 * The casebook's tables. Column vocabulary that SQLite and PostgreSQL share: ids and times are text (times ISO
 * 8601 UTC), flags integer 0/1, JSON text, reals double precision, counts integer.
 */
export interface Tables {
  printers: PrinterTable;
  spools: SpoolTable;
  people: PersonTable;
  hour_readings: HourReadingTable;
  spool_events: SpoolEventTable;
  shop_settings: ShopSettingTable;
  cases: CaseTable;
  case_events: CaseEventTable;
  case_causes: CaseCauseTable;
  case_steps: CaseStepTable;
  case_rankings: CaseRankingTable;
  case_conclusions: CaseConclusionTable;
  guides: GuideTable;
  actions: ActionTable;
  action_events: ActionEventTable;
  training_results: TrainingResultTable;
  devices: DeviceTable;
  person_pins: PersonPinTable;
  audit_entries: AuditEntryTable;
  maintenance_events: MaintenanceEventTable;
  imports: ImportTable;
  import_cases: ImportCaseTable;
  binned_cases: BinnedCaseTable;
  ballots: BallotTable;
  ballot_votes: BallotVoteTable;
  join_codes: JoinCodeTable;
  door_tries: DoorTriesTable;
}

export const TABLE_NAMES = [
  'printers',
  'spools',
  'people',
  'hour_readings',
  'spool_events',
  'shop_settings',
  'cases',
  'case_events',
  'case_causes',
  'case_steps',
  'case_rankings',
  'case_conclusions',
  'guides',
  'actions',
  'action_events',
  'training_results',
  'devices',
  'person_pins',
  'audit_entries',
  'maintenance_events',
  'imports',
  'import_cases',
  'binned_cases',
  'ballots',
  'ballot_votes',
  'join_codes',
  'door_tries',
] as const satisfies readonly (keyof Tables)[];

interface PrinterTable {
  id: string;
  label: string;
  /** The shop's own word for machines that are kept alike; empty where it has none. */
  model: string;
  conditions_json: string;
  note: string;
  is_retired: number;
  is_demo: number;
  /** 1 when added, one more with every change. */
  revision: number;
}

interface SpoolTable {
  id: string;
  label: string;
  polymer: string;
  filler: string;
  filler_percent: number | null;
  storage: string | null;
  opened_at: string | null;
  diameter_mm: number;
  filament_grams: number;
  supplier: string;
  batch: string;
  tare_grams: number | null;
  body: string;
  note: string;
  is_retired: number;
  is_demo: number;
  /** 1 when added, one more with every change. */
  revision: number;
}

/** Where a spool has been; append-only. */
interface SpoolEventTable {
  spool_id: string;
  seq: number;
  at: string;
  event_json: string;
}

interface ShopSettingTable {
  name: string;
  value_json: string;
  /** 1 when first said, one more with every change. */
  revision: number;
}

interface PersonTable {
  id: string;
  initials: string;
  role: string;
  is_retired: number;
  is_demo: number;
  /** 1 when added, one more with every change. */
  revision: number;
}

/** The print-hour meter of a printer as read at a time. */
interface HourReadingTable {
  printer_id: string;
  at: string;
  total_hours: number;
  /** read, corrected (earlier readings above it were wrong) or reset (the meter began again). */
  kind: string;
}

/** Projection of a case's events, for lists; rebuilt from them at any time. */
interface CaseTable {
  id: string;
  number: number;
  state: string;
  revision: number;
  opened_at: string;
  closed_at: string | null;
  printer_id: string | null;
  spool_id: string | null;
  opened_by: string | null;
  complaint: string;
  cause_label: string;
  is_confirmed: number;
  practice: string | null;
  minutes_lost: number;
  grams_scrapped: number;
  /** Lower-case words that the search looks through. */
  search_text: string;
  knowledge_version: string;
  engine_version: string;
  is_demo: number;
  /** The case that it leads to; its own state is "merged" then. */
  merged_into: string | null;
  /** The case that it came from. */
  came_from: string | null;
  /** Name of the print profile; empty where nobody said. */
  profile: string;
  /** The lead's own words on it, from A to Z: a list of texts as JSON. */
  tags_json: string;
}

/** Append-only: rows are never changed. Each names the guide and the engine it was made under. */
interface CaseEventTable {
  case_id: string;
  seq: number;
  at: string;
  event_json: string;
  knowledge_version: string;
  engine_version: string;
  /** Initials of whoever was signed in; null where nobody was. */
  by_initials: string | null;
}

/** Confirmed causes of closed cases: a guide's id, or words in `named`. */
interface CaseCauseTable {
  case_id: string;
  /** Order in which they were named, from 0. */
  position: number;
  cause: string;
  label: string;
  is_named_by_hand: number;
}

/** What a case adds up to at its newest revision: a cache of its log, of whatever guide, engine and costs it names. */
interface CaseStepTable {
  case_id: string;
  revision: number;
  knowledge_version: string;
  engine_version: string;
  costs_json: string;
  step_deflated: string;
}

/** The first candidates after each entry: a cache of the log, too. */
interface CaseRankingTable {
  case_id: string;
  seq: number;
  knowledge_version: string;
  engine_version: string;
  ranking_json: string;
}

/** What a case concluded with its newest entry, kept when its step is made anew under another guide or engine. */
interface CaseConclusionTable {
  case_id: string;
  revision: number;
  knowledge_version: string;
  engine_version: string;
  conclusion_json: string;
}

/** The guides that entries were made under, by content hash: their parsed files, written once and never changed. */
interface GuideTable {
  version: string;
  first_used_at: string;
  files_deflated: string;
}

/** What the shop does about a finding; everything about it stands in its log. */
interface ActionTable {
  id: string;
  is_demo: number;
}

/** Append-only. */
interface ActionEventTable {
  action_id: string;
  seq: number;
  at: string;
  event_json: string;
}

/** The vote of a group session that is under way: one row, or none. */
interface BallotTable {
  id: string;
  asked_at: string;
  ballot_json: string;
  /** Null until it is revealed. */
  result_json: string | null;
}

interface BallotVoteTable {
  ballot_id: string;
  /** "person ID" or "device ID": one vote each. */
  voter: string;
  label: string;
  person_id: string | null;
  initials: string | null;
  choice: string;
}

/** What trainees did; rows are never changed, and go when a person is forgotten. */
interface TrainingResultTable {
  id: string;
  person_id: string;
  at: string;
  result_json: string;
}

/**
 * Devices that have joined. A revoked one stays, so that what it did keeps a name. No foreign keys: a printer or a person may
 * go without the device.
 */
interface DeviceTable {
  id: string;
  label: string;
  role: string;
  printer_id: string | null;
  /** SHA-256 of the secret in its cookie. */
  secret_hash: string;
  /** Of the secret before, as long as the device may not have heard of the new one. */
  previous_hash: string | null;
  rotated_at: string;
  joined_at: string;
  seen_at: string | null;
  revoked_at: string | null;
  /** Who is signed in on it, and when that person last wrote something. */
  person_id: string | null;
  person_active_at: string | null;
}

interface PersonPinTable {
  person_id: string;
  /** As `access/pin-hash.ts` writes it. */
  pin_hash: string;
}

/** Append-only. */
interface AuditEntryTable {
  id: string;
  at: string;
  who: string;
  what: string;
}

/** What was done to keep a printer well; append-only. */
interface MaintenanceEventTable {
  printer_id: string;
  seq: number;
  at: string;
  event_json: string;
}

/** A spreadsheet that came in. */
interface ImportTable {
  id: string;
  at: string;
  file_name: string;
}

/** Which cases came in with it, and how long their logs were then. */
interface ImportCaseTable {
  case_id: string;
  import_id: string;
  revision: number;
}

/** Cases that were thrown away, with their rows as they lay. */
interface BinnedCaseTable {
  case_id: string;
  number: number;
  binned_at: string;
  label: string;
  rows_json: string;
}

/** Codes that wait for a device. */
interface JoinCodeTable {
  /** SHA-256 of the code. */
  code_hash: string;
  label: string;
  role: string;
  printer_id: string | null;
  expires_at: string;
}

/** How often a code or a PIN was tried in vain, by what it was tried at (`access/attempt-gate.ts`). */
interface DoorTriesTable {
  door: string;
  in_vain: number;
  at: string;
  open_again_at: string;
}

export type SpoolRow = Selectable<SpoolTable>;
export type DeviceRow = Selectable<DeviceTable>;
export type CaseRecord = Selectable<CaseTable>;
export type NewCaseRecord = Insertable<CaseTable>;
