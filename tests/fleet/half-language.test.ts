/**
 * A language that somebody is writing: a paper is made in it as soon as all that the paper says is written, and none is made before.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { memoryFolder, smallBuild, threeStores } from './small-build.js';
import { STORE } from '../support/chain.js';

type Words = Readonly<Record<string, string | undefined>>;

/** Word lists of another language as Portuguese ones, with changes: undefined takes a file away. */
const portuguese = (from: string, changes: Words = {}): Words =>
  Object.fromEntries(
    readdirSync(`words/${from}`)
      .filter((name) => !/^(findings|why|report|diff|new|pass-on)\./.test(name))
      .map((name) => {
        const text = readFileSync(`words/${from}/${name}`, 'utf8').replace(/^locale: .*$/m, 'locale: pt-BR');
        const own = name === 'language.yaml' ? text.replace(/^name: .*$/m, 'name: Português') : text;
        return [`words/pt/${name}`, name in changes ? changes[name] : own];
      }),
  );

const built = async (words: Words, only: readonly string[], format = 'html') => {
  const files = threeStores({
    ...words,
    'sites/alder.yaml': `${STORE}languages: [en, pt]\n`,
    'sites/birch.yaml': undefined,
    'sites/cedar.yaml': undefined,
  });
  const out = new Map<string, Uint8Array>();
  const { findings } = await smallBuild(files, memoryFolder(out).out, { only, formats: [format] });
  const made = [...out.keys()].filter((path) => path.endsWith(`.${format}`) && path !== 'index.html').sort();
  return { findings, made };
};

describe('a language that is being written', () => {
  it('has the papers whose sentences are all there, and tells what the others lack', async () => {
    const { findings, made } = await built(portuguese('es', { 'card.yaml': undefined }), ['poster', 'card']);
    expect(made).toEqual(['alder/line-1-card.en.html', 'alder/line-1-poster.en.html', 'alder/line-1-poster.pt.html']);
    const lacking = findings.filter((f) => f.code === 'page-lacks-words');
    expect(lacking).toMatchObject([{ severity: 'error', data: { paper: 'card', lang: 'pt' } }]);
    expect(lacking[0]?.data['keys']).toContain('card.title');
    expect(findings).toContainEqual(expect.objectContaining({ code: 'language-gaps', severity: 'warning' }));
  });

  it('has none of which one sentence lacks', async () => {
    const headline = readFileSync('words/es/headline.yaml', 'utf8').replace(/^empty-by: .*\n/m, '');
    const { findings, made } = await built(portuguese('es', { 'headline.yaml': headline }), ['poster']);
    expect(made).toEqual(['alder/line-1-poster.en.html']);
    expect(findings.filter((f) => f.code === 'page-lacks-words').map((f) => f.data['keys'])).toEqual([['headline.empty-by']]);
  });

  it('leaves over the old paper that can no longer be made, and tells what it lacks also after a file that could not be read is gone', async () => {
    const out = new Map<string, Uint8Array>();
    const build = (changes: Words) =>
      smallBuild(
        threeStores({
          ...portuguese('es', changes),
          'sites/alder.yaml': `${STORE}languages: [en, pt]\n`,
          'sites/birch.yaml': undefined,
          'sites/cedar.yaml': undefined,
        }),
        memoryFolder(out).out,
        { only: ['poster'], formats: ['html'] },
      );
    const codes = ({ findings }: Awaited<ReturnType<typeof build>>, data: 'keys' | 'told_at') =>
      findings.filter((f) => f.code === 'page-lacks-words').map((f) => f.data[data] !== undefined);
    expect((await build({})).finished.left).toEqual([]);
    const broken = await build({ 'foot.yaml': 'a: [\n' });
    expect(codes(broken, 'told_at')).toEqual([true]);
    expect(broken.finished.left.map(({ left, why }) => `${left} ${why}`)).toEqual(['alder/line-1-poster.pt.html not-made']);
    const gone = await build({ 'foot.yaml': undefined });
    expect([codes(gone, 'keys'), codes(gone, 'told_at')]).toEqual([[true], [false]]);
  });

  it('tells a letter that the typeface lacks, and where it is written', async () => {
    const poster = readFileSync('words/es/poster.yaml', 'utf8').replace(/^night: .*$/m, 'night: Ночь');
    const { findings, made } = await built(portuguese('es', { 'poster.yaml': poster }), ['poster'], 'pdf');
    expect(made).toEqual(['alder/line-1-poster.en.pdf']);
    const [first] = findings.filter((f) => f.code === 'no-glyph');
    expect(first?.data).toMatchObject({ glyph: 'Н', sentences: ['words/pt/poster.yaml: night'] });
  });

  it('has none of copies', async () => {
    const { findings, made } = await built(portuguese('en'), ['poster', 'week']);
    expect(made).toEqual(['alder/line-1-poster.en.html', 'alder/week.en.html']);
    const keys = findings.filter((f) => f.code === 'page-lacks-words').map((f) => f.data['keys']);
    expect(keys[0]).toEqual(expect.arrayContaining(['cautions.fire-and-sparks.text', 'headline.empty-by', 'poster.night']));
  });
});
