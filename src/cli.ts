#!/usr/bin/env node
/**
 * The command line: options in, exit code out. Each command's code is loaded only when it is asked for.
 */
import { Command, CommanderError, Option } from 'commander';
import { FolderFault } from './fleet/outside.js';
import { systemSays } from './host/system-says.js';
import { readShard, type Shard } from './fleet/shard.js';
import { readVersion } from './host/disk.js';
import { endWithReader } from './host/terminal.js';
import { formatNames } from './print/format-names.js';
import type { AdoptOptions } from './commands/adopt.js';
import type { BuildOptions } from './commands/build.js';
import type { CalendarOptions } from './commands/calendar.js';
import { EXIT } from './commands/shared/exit.js';
import type { GatherOptions } from './commands/gather.js';
import type { NewOptions } from './commands/new.js';
import type { PassOnOptions } from './commands/pass-on.js';
import type { PlanOptions } from './commands/plan.js';
import type { PressOptions } from './commands/press.js';
import type { ReportOptions } from './commands/report.js';
import type { SaturationOptions } from './commands/saturation.js';
import type { CommonOptions } from './commands/shared/session.js';

const list = (value: string): string[] => {
  const parts = value
    .split(',')
    .map((part) => part.trim())
    .filter(Boolean);
  if (parts.length === 0) throw new CommanderError(EXIT.usage, 'list', 'error: write at least one name');
  return parts;
};

/** A list that may be said piece by piece. */
const more = (value: string, before: readonly string[] = []): string[] => [...before, ...list(value)];

/** A whole number between two others. */
const whole =
  (least: number, most: number) =>
  (value: string): number => {
    const number = /^\d{1,9}$/.test(value) ? Number(value) : -1;
    if (number < least || number > most)
      throw new CommanderError(EXIT.usage, 'number', `error: ${value} is no whole number from ${least} to ${most}`);
    return number;
  };

const part = (value: string): Shard => {
  const shard = readShard(value);
  if (!shard) throw new CommanderError(EXIT.usage, 'shard', `error: ${value} is no part of a chain: write it like 3/16`);
  return shard;
};

const program = new Command('nightrail')
  .description(
    "Turns one technician's knowledge of a unit, and a store's hours, into posters, checklists, handouts and service cards.",
  )
  .version(readVersion())
  .exitOverride()
  .showHelpAfterError('(nightrail --help shows examples)');

// A value that a shell left empty would be taken for none at all: `--from "$day"`.
program.hook('preAction', (_, command) => {
  for (const [name, value] of Object.entries(command.opts()))
    if (value === '') throw new CommanderError(EXIT.usage, 'empty', `error: --${name} needs a value`);
});

const common = (command: Command): Command =>
  command
    .option('--chain <dir>', "the chain's folder (default: the nearest one upward that holds nightrail.yaml)")
    .option('--notes', 'show notes too, not only how many there are')
    .option('--json', 'print JSON for other programs');

let exit: number = EXIT.fine;

common(program.command('check [paths...]'))
  .description('read and plan everything; say what is wrong, where, and what to write instead')
  .addHelpText('after', '\nExamples:\n  nightrail check\n  nightrail check sites/copper-ferry.yaml\n  nightrail check --json')
  .action(async (paths: string[], options: CommonOptions) => {
    exit = (await import('./commands/check.js')).check(paths, options);
  });

common(program.command('plan <store>'))
  .description("show a store's plan: every time, temperature and pressure with its reason")
  .option(
    '--why <path>',
    'the chain of reasons behind one value, like units.line-1.rest.off; of a unit or a branch, all its values',
  )
  .option('--scenes', 'also what the physics predicts if people do not: food left in, put in warm, covers open')
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail plan copper-ferry\n  nightrail plan copper-ferry --why units.line-1.rest.off\n  nightrail plan copper-ferry --why units.line-1.rest   # its values, each with its path\n  nightrail plan copper-ferry --scenes\n  nightrail plan copper-ferry --json',
  )
  .action(async (store: string, options: PlanOptions) => {
    exit = (await import('./commands/plan.js')).plan(store, options);
  });

common(program.command('build [stores...]'))
  .description('make the papers of all stores, or of those named')
  .option('--out <dir>', 'folder for the papers', 'out')
  .option('--only <papers>', 'papers by name, separated by commas', list)
  .option('--language <languages>', 'only in these languages, like es or en,es; the others stay as they are', more)
  .addOption(new Option('--week <week>', 'the week of dated sheets, like 2026-W49 (default: the coming week)').conflicts('from'))
  .option('--from <date>', 'seven days from this date, like 2026-11-30')
  .addOption(
    new Option('--weeks <number>', 'how many weeks of dated sheets, one after another').default(1).argParser(whole(1, 53)),
  )
  .addOption(
    new Option('--format <formats>', `which of these, separated by commas: ${formatNames.join(', ')}`)
      .default([...formatNames], formatNames.join(','))
      .argParser(list),
  )
  .option('--shard <part>', 'make one part of the chain, like 3/16; `nightrail gather` joins them', part)
  .option('--prune', 'remove files of earlier builds that nobody needs any more')
  .addOption(new Option('--watch', 'build again what each save touches, until Ctrl-C').conflicts('json'))
  .option('--verify', 'read every file again instead of trusting its size')
  .option(
    '--workers <number>',
    'processes at work; 0 for none beside this one (default: as many as there are cores)',
    whole(0, 256),
  )
  .addOption(new Option('--patience <seconds>', 'how long one store may take').default(120).argParser(whole(1, 86_400)))
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail build\n  nightrail build copper-ferry --only poster,week --week 2026-W49\n  nightrail build --only week --weeks 4\n  nightrail build --only handout --language es\n  nightrail build --format pdf --out /tmp/papers\n  nightrail build --shard 3/16\n  nightrail build copper-ferry --only poster --watch',
  )
  .action(async (stores: string[], { watch, ...options }: BuildOptions & { readonly watch?: true }) => {
    exit = await (watch
      ? (await import('./commands/watch.js')).watchAndBuild(stores, options)
      : (await import('./commands/build.js')).build(stores, options));
  });

common(program.command('gather'))
  .description('join the parts of a build that several machines made')
  .option('--out <dir>', 'folder of the papers', 'out')
  .addHelpText('after', '\nExample:\n  nightrail gather --out /shared/papers')
  .action(async (options: GatherOptions) => {
    exit = await (await import('./commands/gather.js')).gather(options);
  });

common(program.command('report'))
  .description('what head office has to do: schedules that can not work, clocks found wrong, sheets to take down')
  .option('--out <dir>', 'folder of the papers', 'out')
  .option('--csv', 'print CSV for a spreadsheet')
  .addHelpText('after', '\nExamples:\n  nightrail report\n  nightrail report --csv > todo.csv')
  .action(async (options: ReportOptions) => {
    exit = (await import('./commands/report.js')).report(options);
  });

common(program.command('diff <before> <after>'))
  .description('what changed between two builds, in plain words: which times moved and why, which papers to send')
  .addHelpText('after', '\nExamples:\n  nightrail diff last-week.jsonl out\n  nightrail diff old-out out --json')
  .action(async (before: string, after: string, options: CommonOptions) => {
    exit = (await import('./commands/diff.js')).diff(before, after, options);
  });

common(program.command('press [stores...]'))
  .description(
    'what a print shop gets, of all stores or of those named: one PDF for each paper, finish and size, with sheets between stores and a packing list',
  )
  .option('--out <dir>', 'folder of the papers', 'out')
  .option('--only <papers>', 'papers by name, separated by commas', list)
  .option('--since <ledger>', 'only what changed since an earlier ledger or folder of papers')
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail press\n  nightrail press copper-ferry dry-fork\n  nightrail press --only poster --since last-week.jsonl',
  )
  .action(async (stores: string[], options: PressOptions) => {
    exit = await (await import('./commands/press.js')).press(stores, options);
  });

common(program.command('adopt <csv>'))
  .description('show how a spreadsheet of stores is understood, before anything is built')
  .option('--write', 'write a copy whose columns are named as keys into sites/')
  .option('--replace', 'with --write: write over a copy that is there and that somebody changed')
  .addHelpText('after', '\nExamples:\n  nightrail adopt ~/stores.csv\n  nightrail adopt ~/stores.csv --write')
  .action(async (csv: string, options: AdoptOptions) => {
    exit = (await import('./commands/adopt.js')).adopt(csv, options);
  });

common(program.command('calendar <store>'))
  .description("write a store's emptying, loading, clock tasks and cleaning as a calendar file, with alarms")
  .option('--from <date>', 'the first day, like 2026-11-30 (default: today)')
  .addOption(new Option('--weeks <number>', 'how many weeks').default(4).argParser(whole(1, 60)))
  .option('--language <language>', "one of the store's languages (default: its first)")
  .option('--out <file>', 'write it into this file instead of the terminal')
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail calendar copper-ferry --out copper-ferry.ics\n  nightrail calendar copper-ferry --from 2027-03-01 --weeks 8 --language es',
  )
  .action(async (store: string, options: CalendarOptions) => {
    exit = (await import('./commands/calendar.js')).calendar(store, options);
  });

program
  .command('saturation <refrigerant> <figure...>')
  .description('what a pressure or a temperature of a refrigerant stands for: both ends of its glide and their use')
  .option('--altitude <height>', "the store's, like 5280ft or 1600m (default: sea level)")
  .option('--sealed', 'the gauge or control counts from a sealed zero, not from the air around it')
  .option('--chain <dir>', 'a chain whose own table of refrigerants is read too')
  .option('--json', 'print JSON for other programs')
  // A figure may be negative: -10F is no option.
  .allowUnknownOption()
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail saturation R-448A 24 psig --altitude 5280ft\n  nightrail saturation R-404A 20F\n  nightrail saturation R-134a 4 inHg\n  nightrail saturation R-290 -10 °F --json',
  )
  .action(async (refrigerant: string, figure: string[], options: SaturationOptions) => {
    const unknown = figure.find((part) => /^--?[a-z]/i.test(part));
    if (unknown !== undefined) throw new CommanderError(EXIT.usage, 'option', `error: unknown option '${unknown}'`);
    exit = (await import('./commands/saturation.js')).saturation(refrigerant, figure, options);
  });

const fresh = program.command('new').description('make a file by answering questions, at the terminal or from a file of answers');

common(fresh.command('equipment'))
  .description('a profile of a unit that is like one that is known')
  .option('--answers <file>', 'answers from a file, without a terminal')
  .addOption(
    new Option('--go-on <file>', 'ask only what this file does not answer: it is kept when you break off').conflicts('answers'),
  )
  .option('--replace', 'write over a file that is there')
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail new equipment\n  nightrail new equipment --answers answers.yaml\n\nA file of answers:\n  id: prep-table-48\n  like: prep-table-60\n  who: R. Talavera, technician\n  when: 2026-11-20\n  how: Read from the plate\n  how_of: { control.pressure: Told by the maker on the phone }\n  answers:\n    name: Prep table 48\n    nameplate.amps: 7.2\n    condensing.split: "?"   # nobody knows yet',
  )
  .action(async (options: NewOptions) => {
    exit = await (await import('./commands/new.js')).newEquipment(options);
  });

common(fresh.command('store'))
  .description('a store with its hours, its crew and its units')
  .option('--answers <file>', 'answers from a file, without a terminal')
  .addOption(
    new Option('--go-on <file>', 'ask only what this file does not answer: it is kept when you break off').conflicts('answers'),
  )
  .option('--replace', 'write over a file that is there')
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail new store\n  nightrail new store --answers answers.yaml\n\nA file of answers:\n  id: larch-street\n  units: { line-1: prep-table-60 }\n  answers:\n    name: Larch Street\n    timezone: America/Chicago\n    hours: Mo-Su 07:00-22:00\n    units.line-1.nickname: Line 1\n    units.line-1.position: left of the grill\n    units.line-1.serial: OC15-20417\n    units.line-1.food_goes_to.zone: base\n    units.line-1.food_goes_to.free_shelf: 6 sq ft\n    units.line-1.food_goes_to.height: 6 in',
  )
  .action(async (options: NewOptions) => {
    exit = await (await import('./commands/new.js')).newStore(options);
  });

common(program.command('pass-on [profile]'))
  .description("a profile as one file for colleagues; with --take, what a colleague's file says otherwise")
  .option('--out <file>', 'write it into this file (default: <profile>.nightrail.yaml)')
  .addOption(new Option('--take <file>', "a colleague's file: show what differs from ours").conflicts('out'))
  .option('--accept <facts>', 'with --take: facts to set into ours, by their names, or all', list)
  .option('--replace', 'write over a file that is there')
  .addHelpText(
    'after',
    '\nExamples:\n  nightrail pass-on prep-table-60\n  nightrail pass-on --take prep-table-60.nightrail.yaml\n  nightrail pass-on --take prep-table-60.nightrail.yaml --accept control.restart_delay',
  )
  .action(async (profile: string | undefined, options: PassOnOptions) => {
    if ((profile === undefined) === (options.take === undefined))
      throw new CommanderError(EXIT.usage, 'pass-on', 'error: name a profile to pass on, or a file to take with --take');
    exit = (await import('./commands/pass-on.js')).passOn(profile, options);
  });

program
  .command('schema')
  .description('write the JSON Schemas with which an editor completes and checks the YAML files')
  .option('--write [dir]', 'write them into this folder', 'schema')
  .option('--json', 'print them instead')
  .addHelpText('after', '\nExample:\n  nightrail schema --write')
  .action(async (options: { write: string | true; json?: boolean }) => {
    exit = (await import('./commands/schema.js')).schema(options);
  });

endWithReader();
try {
  await program.parseAsync();
} catch (fault) {
  if (fault instanceof CommanderError) {
    const asked = ['commander.help', 'commander.helpDisplayed', 'commander.version'].includes(fault.code);
    if (!asked && !fault.code.startsWith('commander.')) process.stderr.write(`${fault.message}\n`);
    exit = asked ? EXIT.fine : EXIT.usage;
  } else if (fault instanceof FolderFault || (fault instanceof Error && 'syscall' in fault)) {
    // A file or folder that cannot be read or written: the system says which.
    process.stderr.write(`nightrail could not go on: ${systemSays(fault)}\n`);
    exit = EXIT.findings;
  } else {
    process.stderr.write(
      `This is a fault of nightrail's own, not of your files. Please report it with what you ran.\n${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n`,
    );
    exit = EXIT.bug;
  }
}
process.exitCode = exit;
