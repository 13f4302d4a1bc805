/**
 * `nightrail pass-on`: a profile with its origins as one file for colleagues, without anything of a store; and `--take`, which shows what a
 * colleague's file says otherwise, fact by fact with who said so. Nothing of ours changes unasked.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { anyError, error, type Finding } from '../base/finding.js';
import { suggestion } from '../base/spelling.js';
import { place, within } from '../base/place.js';
import { today } from '../host/clock.js';
import { readGiven, writeWhole } from '../host/disk.js';
import { id, name } from '../model/fields.js';
import { profileSchema } from '../model/profile.js';
import { findingsOf } from '../read/issues.js';
import { readYaml } from '../read/yaml.js';
import { asYaml } from './new/as-yaml.js';
import { fileText } from './new/finish.js';
import { say } from './shared/say.js';
import { tryProfile } from './new/trial.js';
import { accepted } from './pass-on/accept.js';
import { differences, type Difference, type Told } from './pass-on/facts.js';
import { broken, seal } from './pass-on/sealed.js';
import { openSession, type CommonOptions, type Session } from './shared/session.js';

export interface PassOnOptions extends CommonOptions {
  readonly out?: string;
  readonly take?: string;
  /** Facts to set into ours; `all` for each that differs. */
  readonly accept?: readonly string[];
  readonly replace?: boolean;
}

const passedSchema = z.strictObject({ id, from: name, profile: profileSchema });

const docOf = (profile: string): string => `equipment/${profile}.yaml`;

const end = (
  session: Session,
  options: PassOnOptions,
  more: Readonly<Record<string, unknown>>,
  lines: readonly string[],
): number => {
  if (options.json) {
    session.terminal.line(JSON.stringify({ ...more, findings: session.spoken() }, null, 2));
    return session.exitCode();
  }
  for (const line of lines) session.terminal.line(line);
  return session.conclude();
};

/** Writes a profile of ours as one file. */
const give = (profile: string, session: Session, options: PassOnOptions): number => {
  const { workshop } = session.opened;
  const doc = [docOf(profile), `equipment/${profile}.yml`].find((one) => session.files.has(one));
  if (!workshop || doc === undefined) {
    const names = [...(workshop?.shelf.profiles.keys() ?? [])];
    if (workshop) session.add([error('no-profile', place('equipment'), { profile, ...suggestion(profile, names) })]);
    return end(session, options, {}, []);
  }
  const bytes = session.files.get(doc) as Uint8Array;
  const { value, source } = readYaml(doc, bytes);
  session.sources.set(doc, source);
  session.add(tryProfile(session.files, doc, profile, source.text, value));
  const out = options.out ?? `${profile}.nightrail.yaml`;
  if (existsSync(out) && options.replace !== true) session.add([error('file-exists', place(out), { file: out })]);
  if (session.exitCode() !== 0) return end(session, options, {}, []);
  const body = asYaml(
    { id: profile, from: workshop.shelf.chain.name, profile: value },
    { head: [], above: {}, beside: () => undefined, open: ['profile', 'zones', 'rest', 'nameplate', 'condensing'] },
  );
  writeWhole(out, seal(body));
  return end(session, options, { written: out }, [words(session, 'written', { file: out })]);
};

const words = (session: Session, code: string, values: Readonly<Record<string, string>> = {}): string => {
  const all = session.opened.words.get('en');
  return all ? say(all, code, values, 'pass-on') : code;
};

const shown = (value: unknown, session: Session): string =>
  value === undefined ? words(session, 'nothing') : typeof value === 'string' ? value : JSON.stringify(value);

const toldBy = (told: Told | undefined, session: Session): string =>
  told ? words(session, 'told', { who: told.who, when: told.when }) : words(session, 'nobody');

const tell = (difference: Difference, session: Session): readonly string[] => [
  session.terminal.strong(difference.fact),
  `  ${words(session, 'ours', { value: shown(difference.ours, session) })}  ${session.terminal.quiet(toldBy(difference.ourOrigin, session))}`,
  `  ${words(session, 'theirs', { value: shown(difference.theirs, session) })}  ${session.terminal.quiet(toldBy(difference.theirOrigin, session))}`,
];

interface Passed {
  readonly id: string;
  readonly from: string;
  /** As it is written, not as it is read. */
  readonly profile: unknown;
}

/** A colleague's file, if it is whole, unaltered and sound. */
const received = (path: string, session: Session): Passed | undefined => {
  const bytes = readGiven(path);
  const refused = (findings: readonly Finding[]): Passed | undefined => {
    session.add(findings);
    return undefined;
  };
  if (!bytes) return refused([error('no-pass-on-file', place(path), { file: path })]);
  const read = readYaml(path, bytes);
  session.sources.set(path, read.source);
  const wrong = broken(path, bytes);
  if (wrong.length > 0) return refused(wrong);
  if (read.value === undefined) return refused(read.findings);
  const parsed = passedSchema.safeParse(read.value, { reportInput: true });
  if (!parsed.success) return refused(findingsOf(parsed.error, passedSchema, (at) => within(place(path), ...at)));
  const { profile } = read.value as { readonly profile: unknown };
  const tried = tryProfile(session.files, docOf(parsed.data.id), parsed.data.id, JSON.stringify(profile), profile);
  session.add(tried.map((f) => ({ ...f, at: within(place(path), 'profile', ...f.at.path) })));
  return anyError(tried) ? undefined : { id: parsed.data.id, from: parsed.data.from, profile };
};

const take = (path: string, session: Session, options: PassOnOptions): number => {
  const passed = session.opened.workshop && received(path, session);
  if (!passed) return end(session, options, {}, []);
  const all = session.opened.words.get('en');
  const doc = [docOf(passed.id), `equipment/${passed.id}.yml`].find((one) => session.files.has(one));
  if (doc === undefined) {
    const target = join(session.folder, docOf(passed.id));
    if (existsSync(target)) session.add([error('file-exists', place(docOf(passed.id)), { file: docOf(passed.id) })]);
    else if (all) writeWhole(target, fileText(passed.profile, 'equipment', words(session, 'from', { from: passed.from }), all));
    return end(session, options, existsSync(target) ? { written: docOf(passed.id) } : {}, [
      words(session, 'new', { file: docOf(passed.id) }),
    ]);
  }
  const ours = readYaml(doc, session.files.get(doc) as Uint8Array);
  session.sources.set(doc, ours.source);
  // One with a mistake has been told of already, and says nothing that could be compared.
  if (!profileSchema.safeParse(ours.value).success) return end(session, options, {}, []);
  const found = differences(ours.value, passed.profile);
  const wanted = options.accept ?? [];
  const names = found.map((d) => d.fact);
  for (const fact of wanted.filter((one) => one !== 'all' && !names.includes(one)))
    session.add([error('no-such-difference', place(doc), { wrote: fact, ...suggestion(fact, names) })]);
  const chosen = found.filter(({ fact }) => wanted.includes('all') || wanted.includes(fact));
  const lines = [
    words(session, found.length === 0 ? 'same' : 'differ', { id: passed.id, from: passed.from, count: String(found.length) }),
    ...found.flatMap((difference) => tell(difference, session)),
  ];
  if (chosen.length === 0 || session.exitCode() !== 0)
    return end(session, options, { differences: found }, [
      ...lines,
      ...(found.length > 0 ? [words(session, 'unchanged', { file: doc })] : []),
    ]);
  const text = accepted(ours.source.text, chosen, passed.from, today());
  const tried = tryProfile(session.files, doc, passed.id, text, readYaml(doc, new TextEncoder().encode(text)).value);
  session.add(tried);
  if (!anyError(tried)) writeWhole(join(session.folder, doc), text);
  const did = anyError(tried)
    ? words(session, 'unchanged', { file: doc })
    : words(session, 'accepted', { file: doc, count: String(chosen.length) });
  return end(session, options, { differences: found, ...(anyError(tried) ? {} : { written: doc }) }, [...lines, did]);
};

export const passOn = (profile: string | undefined, options: PassOnOptions): number => {
  const session = openSession(options);
  if (options.take !== undefined) return take(options.take, session, options);
  return give(profile as string, session, options);
};
