/**
 * A new profile tried as `check` would: in a store that nobody wrote, so that rules which need one are asked too. Only what is said of the profile counts.
 */
import type { Finding } from '../../base/finding.js';
import { place } from '../../base/place.js';
import { planOf } from '../../fleet/store-papers.js';
import { openWorkshop } from '../../fleet/workshop.js';
import { lay } from '../../model/resolve.js';
import { checkStore } from '../../plan/checks-of-store.js';
import { checkUnit } from '../../plan/checks.js';
import { readStore, type Files, type Shelf } from '../../read/shelf.js';
import { ZONE_KINDS, type ZoneKindName } from '../../trade/zones.js';
import type { Draft } from './draft.js';
import { at } from './tree.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Wide hours and plenty of room: what is wrong then is wrong with the unit. */
const storeFor = (profile: string, zone: string | undefined): string =>
  JSON.stringify({
    name: 'Trial',
    timezone: 'UTC',
    hours: 'Mo-Su 10:00-20:00',
    backup: 'elsewhere',
    phones: { service: { name: 'Service', phone: '555-0100' }, emergency: '000' },
    units: {
      trial: {
        profile,
        nickname: 'Trial',
        position: 'here',
        ...(zone === undefined ? {} : { food_goes_to: { zone, free_shelf: '100 sq ft', height: '40 in' } }),
      },
    },
  });

/** @param doc `equipment/<id>.yaml` */
export const tryProfile = (files: Files, doc: string, id: string, text: string, value: unknown): readonly Finding[] => {
  const zones = Object.entries((at(value, ['zones']) ?? {}) as Record<string, { readonly kind?: ZoneKindName }>);
  const stores = zones.find(([, { kind }]) => kind !== undefined && kind in ZONE_KINDS && ZONE_KINDS[kind].stores)?.[0];
  const opened = openWorkshop(new Map([...files, [doc, bytes(text)]]));
  const findings = [...opened.findings];
  if (opened.workshop) findings.push(...planOf(opened.workshop, 'sites/trial.yaml', bytes(storeFor(id, stores))).findings);
  return findings.filter((f) => f.at.doc === doc);
};

const isError = ({ severity }: Finding): boolean => severity === 'error';

/**
 * What `check` has against the answers so far of a unit, in a moment: rules of more than one fact, nothing that needs a plan.
 * @param similar stands under them, so that the rules find a whole profile
 */
export const tryUnit = (shelf: Shelf, similar: unknown, { value, notKnown }: Draft): readonly Finding[] => {
  const at = place('trial');
  const raw = lay([
    { value: similar, at },
    { value: { ...(value as object), not_known: notKnown }, at },
  ]).value;
  const tried: Shelf = { ...shelf, profiles: new Map([['trial', { raw, at, sound: true }]]) };
  const { store: read } = readStore(tried, 'sites/trial.yaml', bytes(storeFor('trial', undefined)));
  return read ? read.units.flatMap((unit) => checkUnit({ shelf: tried, read }, unit)).filter(isError) : [];
};

/** The same of a store, without its units. */
export const tryStore = (shelf: Shelf, { value }: Draft): readonly Finding[] => {
  const bare = { name: 'Trial', timezone: 'UTC', hours: '24/7', ...(value as object), units: {} };
  const { store: read } = readStore(shelf, 'sites/trial.yaml', bytes(JSON.stringify(bare)));
  return read ? checkStore({ shelf, read }, read.store.languages, undefined).filter(isError) : [];
};
