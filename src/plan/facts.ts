/**
 * What the store and its law say, as leaves of the plan: nothing is worked out here.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { moment } from '../base/moment.js';
import { count, flag, term, verbatim, type Value } from '../base/value.js';
import { wroteWhen } from '../model/fields.js';
import { within } from '../base/place.js';
import { lawTemperature, type Law } from '../model/law.js';
import { SHIPPED, type Filed } from '../read/reader.js';
import type { ReadStore, Shelf } from '../read/shelf.js';
import { lastOfWeek } from './as-of.js';
import { computed, lawful, practice, told, written } from './known.js';

type Heat = Pick<NonNullable<Law['cooling']>['from'], 'f' | 'c'>;

const coolingOf = ({ value: { name, cooling }, at }: Filed<Law>) => {
  if (!cooling) return [];
  const basis = { law: name, section: cooling.section, checked: cooling.checked, at };
  const heat = (of: Heat): Known<Amount<'temperature'>> => lawful<Amount<'temperature'>>(lawTemperature(of), basis);
  const step = (from: Heat, to: Heat, hours: number) => ({
    from: heat(from),
    to: heat(to),
    within: lawful<Amount<'duration'>>(amount('duration', hours * 3600), basis),
  });
  const { from, through, to } = cooling;
  return through ? [step(from, through, through.hours), step(through, to, to.hours - through.hours)] : [step(from, to, to.hours)];
};

/** Whether somebody has approved the papers of the week that begins on a date. */
export const isApproved = ({ chain: { approved } }: Shelf, on: string | undefined): boolean =>
  approved !== undefined && (on === undefined || approved.from <= lastOfWeek(on));

/** @param on the first day of the week for which is planned: what is approved from a later one on is approved no sooner */
export const storeFacts = (shelf: Shelf, read: ReadStore, on: string | undefined) => {
  const { store, law, originOf: from, id } = read;
  const name = written(verbatim(store.name), from('name'));
  const cold = law.value.cold;
  const lawBasis = { law: law.value.name, section: cold.section, checked: cold.checked, at: law.at };
  const limit = lawful<Amount<'temperature'>>(cold.at_most, lawBasis);
  const probeError = written(store.probe_error, from('probe_error'));
  /** What a probe must read for the food to be surely at the limit. */
  const aim = computed<Amount<'temperature'>>(
    amount('temperature', limit.value.si - probeError.value.si),
    'limit-less-probe-error',
    [limit, probeError],
    'colder',
  );
  const ice = practice<Amount<'temperature'>>(amount('temperature', 273.15), 'ice-point');
  /** A probe in ice reads this, or it is put right or put away. */
  const inIce = (side: -1 | 1): Known<Amount<'temperature'>> =>
    computed(amount('temperature', ice.value.si + side * probeError.value.si), 'ice-point-with-error', [ice, probeError]);
  const { frozen, over_limit: over } = law.value;
  return {
    id: written(verbatim(id), { at: read.at, assumed: false }),
    name,
    chain: written(verbatim(shelf.chain.name), { at: { ...shelf.chainAt, path: ['name'] }, assumed: false }),
    timezone: written(verbatim(store.timezone), from('timezone')),
    hours: written(verbatim(store.hours.wrote), from('hours')),
    sheet: written(verbatim(store.sheet), from('sheet')),
    measure: written(verbatim(store.measure), from('measure')),
    clock_shows: written(verbatim(store.clock_shows), from('clock_shows')),
    altitude: written(store.altitude, from('altitude')),
    kitchen: {
      usual: written(store.kitchen.usual, from('kitchen', 'usual')),
      hottest: written(store.kitchen.hottest, from('kitchen', 'hottest')),
      humidity: written(store.kitchen.humidity, from('kitchen', 'humidity')),
    },
    crew: {
      comes: written(verbatim(wroteWhen(store.crew.comes)), from('crew', 'comes')),
      leaves: written(verbatim(wroteWhen(store.crew.leaves)), from('crew', 'leaves')),
      first_pan: written(verbatim(wroteWhen(store.crew.first_pan)), from('crew', 'first_pan')),
      start_before_closing: written(store.crew.start_before_closing, from('crew', 'start_before_closing')),
    },
    rush: store.rush?.map(({ from: begin, to }, i) => ({
      from: written(moment(begin), from('rush', i)),
      to: written(moment(to), from('rush', i)),
    })),
    closers: written(count(store.crew.closers), from('crew', 'closers')),
    openers: written(count(store.crew.openers), from('crew', 'openers')),
    backup: written(told(store.backup, shelf.lang), from('backup')),
    phones: {
      service: written(verbatim(store.phones.service.name), from('phones', 'service', 'name')),
      number: written(verbatim(store.phones.service.phone), from('phones', 'service', 'phone')),
      emergency: written(verbatim(store.phones.emergency), from('phones', 'emergency')),
      manager:
        store.phones.manager === undefined ? undefined : written(verbatim(store.phones.manager), from('phones', 'manager')),
    },
    law: {
      name: written(verbatim(law.value.name), { at: law.at, assumed: false }),
      section: lawful<Value>(verbatim(cold.section), lawBasis),
      unchecked: lawful<Value>(flag(!cold.checked), lawBasis),
      // A law that ships is told in English, a chain's own in the chain's language.
      authority: written(told(law.value.authority, law.at.doc.startsWith(SHIPPED) ? 'en' : shelf.lang), {
        at: within(law.at, 'authority'),
        assumed: false,
      }),
      limit,
      probe_error: probeError,
      aim,
      /** A probe may err: between the two nobody knows. */
      between: practice(flag(aim.value.si < limit.value.si), 'trait'),
      frozen:
        frozen.c === undefined
          ? undefined
          : lawful<Amount<'temperature'>>(lawTemperature({ f: frozen.f, c: frozen.c }), {
              law: law.value.name,
              section: frozen.section,
              checked: frozen.checked,
              at: law.at,
            }),
      frozen_section: lawful<Value>(verbatim(frozen.section), {
        law: law.value.name,
        section: frozen.section,
        checked: frozen.checked,
        at: law.at,
      }),
      /** Warm food on its way to cold: a step, or two with the law's middle figure between them. */
      cooling: coolingOf(law),
      over_limit: lawful<Value>(term(`over-limit-${over.rule}`), {
        law: law.value.name,
        section: over.section,
        checked: over.checked,
        at: law.at,
      }),
    },
    ice: { point: ice, least: inIce(-1), most: inIce(1) },
    people: (store.people ?? []).map((person, i) => written(verbatim(person), from('people', i))),
    /** The chain prints a log: then what was over a limit is written there, and nowhere else. */
    log: written(flag(shelf.chain.papers.includes('log')), { at: shelf.chainAt, assumed: false }),
    approved: written(flag(isApproved(shelf, on)), { at: shelf.chainAt, assumed: false }),
    /** In which languages of its own, beside those that ship. */
    approved_in: shelf.chain.approved?.languages?.map((lang, i) =>
      written(verbatim(lang), { at: within(shelf.chainAt, 'approved', 'languages', i), assumed: false }),
    ),
  };
};

export type StoreFacts = ReturnType<typeof storeFacts>;
