/**
 * The style sheet of an HTML page: readable from 320 px, in dark rooms, without a pointer, and printed on its sheet.
 */
import { cssSize } from '../base/sheet-size.js';
import type { Page } from '../compose/block.js';
import { readableOn } from './contrast.js';
import { BROWSER_MARGIN, PANELS, TEXT_CONTRAST, type Palette } from './theme.js';

const DARK_PAPER = '#141414';

const panels = (): string =>
  Object.entries(PANELS)
    .map(([level, { ground, letters }]) => `.callout.${level} > .word { background: ${ground}; color: ${letters}; }`)
    .join('\n');

/** On a narrow screen a list of days, for a thumb (44 px); the day that was chosen stands alone beside its tasks. */
const chosenDay = ({ each }: NonNullable<Page['days']>): string =>
  [
    '  nav { display: block; }',
    '  nav ul { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: .4rem; margin: .6rem 0; }',
    '  nav li { margin: 0; }',
    '  nav a { flex: 1; min-height: 44px; display: grid; place-items: center; text-align: center; line-height: 1.1; border: .12rem solid var(--ink); text-decoration: none; }',
    '  nav a[aria-current] { background: var(--ink); color: var(--paper); font-weight: 800; }',
    '  main:has([id^="day-"]:target) .by-day tr { grid-template-columns: minmax(0, 1fr) 8rem; align-items: center; }',
    '  main:has([id^="day-"]:target) .by-day.wide th:not([colspan]) { grid-column: 1; }',
    ...each.map(
      ({ iso }, i) => `  main:has(#day-${iso}:target) .by-day tr > :not(:first-child, :nth-child(${i + 2})) { display: none; }`,
    ),
    '',
  ].join('\n');

export const styleOf = (page: Page, palette: Palette): string => `
:root {
  color-scheme: light dark;
  --paper: ${palette.shape('paper')}; --ink: ${palette.text('ink')}; --soft: ${palette.text('soft-ink')};
  --rule: ${palette.shape('rule')}; --wash: ${palette.shape('wash')}; --brand: ${palette.text('brand')}; --danger: ${palette.shape('danger')};
}
@media screen and (prefers-color-scheme: dark) {
  :root {
    --paper: ${DARK_PAPER}; --ink: #f4f4f4; --soft: #cfcfcf; --rule: #8f8f8f; --wash: #2b2b2b;
    --brand: ${readableOn(palette.text('brand'), DARK_PAPER, TEXT_CONTRAST)}; --danger: ${readableOn(palette.shape('danger'), DARK_PAPER, 4.5)};
  }
}
* { box-sizing: border-box; }
body {
  margin: 0 auto; padding: 1rem; max-width: 60rem; background: var(--paper); color: var(--ink);
  font: 1.125rem/1.45 'Atkinson Hyperlegible Next', system-ui, sans-serif; overflow-wrap: anywhere; hyphens: auto;
}
header { display: flex; gap: 1rem; justify-content: space-between; align-items: end; border-bottom: .25rem solid var(--brand); font-weight: 700; }
header p, footer p { margin: .25rem 0; }
header svg, header img { max-width: 10rem; max-height: 2.5rem; background: #fff; }
.draft { background: var(--ink); color: var(--paper); text-align: center; font-weight: 800; margin: 0 0 .5rem; }
footer { border-top: 1px solid var(--ink); margin-top: 2rem; font-size: .9375rem; color: var(--soft); }
h1, h2, h3, h4, .signal { line-height: 1.12; margin: 1.2em 0 .4em; text-wrap: balance; hyphens: manual; }
h1, h2, .signal { font-weight: 800; }
h1 { font-size: 2rem; }
h2, h2.level-2 { font-size: 1.5rem; }
.level-2 { border-top: .2rem solid var(--ink); padding-top: .3rem; }
h3, h4 { font-size: 1.2rem; }
.signal { font-size: clamp(2.6rem, 13vw, 6rem); line-height: 1; margin: .3em 0; }
.signal .value, .when { color: var(--brand); }
.message { font-size: 1.35rem; line-height: 1.25; font-weight: 700; }
.room .message { font-size: clamp(1.35rem, 5vw, 2.2rem); line-height: 1.2; }
.fine { font-size: .9375rem; color: var(--soft); }
.label { font-weight: 700; margin-bottom: .2rem; }
section.face + section.face { border-top: .25rem solid var(--brand); margin-top: 1.5rem; }
ul, ol { padding: 0; list-style: none; }
li > div > :first-child, .when + * { margin-top: 0; }
li > div > :last-child { margin-bottom: 0; }
ul > li { display: flex; gap: .7rem; margin: .5rem 0; }
ul > li > div, ol > li > div { flex: 1; min-width: 0; }
ul > li > .mark { flex: none; width: 1.5rem; }
ul > li > .mark svg { width: 1.5rem; height: 1.5rem; display: block; }
ul.dot > li > .mark::before { content: ''; display: block; width: .5rem; height: .5rem; margin: .55em auto 0; background: currentColor; }
ol { counter-reset: step; }
ol > li { counter-increment: step; display: flex; gap: .8rem; border-top: 1px solid var(--rule); padding: .6rem 0; }
ol > li:first-child { border-top: 0; }
ol > li::before { content: counter(step); font-weight: 800; font-size: 1.9rem; line-height: 1; min-width: 1.3em; }
.when { font-weight: 800; margin: 0; }
input[type='checkbox'] { flex: none; width: 1.75rem; height: 1.75rem; margin: 0; accent-color: var(--brand); }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; border-top: .15rem solid var(--ink); overflow-wrap: normal; hyphens: manual; }
caption { text-align: start; font-weight: 700; padding: .3rem 0; }
th, td { padding: .45rem .6rem; border: 1px solid var(--rule); border-inline: 0; vertical-align: middle; }
th + *, td + * { border-inline-start: 1px solid var(--rule); }
thead th { background: var(--wash); border-bottom: .12rem solid var(--ink); vertical-align: top; }
.start { text-align: start; } .middle { text-align: center; } .end { text-align: end; }
td.mute { background: repeating-linear-gradient(135deg, transparent 0 6px, var(--rule) 6px 7px); }
td.mute > span { background: var(--paper); padding: 0 .3rem; }
td.strong { font-weight: 700; }
.write { display: block; min-width: 3rem; height: 1.7rem; border-bottom: 1px solid var(--soft); }
td label { display: inline-flex; gap: .5rem; align-items: center; }
.callout { border: .15rem solid var(--ink); margin: 1.2rem 0; padding: 0 .9rem .7rem; }
.callout > .word { margin: 0 -.9rem .6rem; padding: .3rem .9rem; font-weight: 800; letter-spacing: .02em; font-size: 1.25rem; }
.callout > .word svg { width: 1.7rem; height: 1.5rem; vertical-align: -.25em; margin-inline-end: .5rem; }
.callout > .title { font-weight: 700; }
.callout > p { margin: .4rem 0; }
${panels()}
a { color: inherit; text-underline-offset: .15em; }
a[href^='tel:'] { white-space: nowrap; }
figure { margin: 1.2rem 0; }
figure svg { display: block; width: min(100%, max(var(--share), 30rem)); height: auto; background: #fff; }
figcaption { font-size: .9375rem; color: var(--soft); }
.columns { display: grid; gap: 0 2rem; }
@media (min-width: 48rem) { .columns { grid-template-columns: var(--columns); } }
.cut-outs { display: grid; gap: .8rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, max(12rem, 90% / var(--across))), 1fr)); }
.cut-out { border: 1px dashed var(--ink); padding: .6rem .8rem; break-inside: avoid; }
.blank > div { border-bottom: 1px solid var(--rule); height: 2.2rem; }
nav { display: none; }
.hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media screen and (max-width: 44rem) {
  .wide, .wide tbody { display: block; }
  .wide thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .wide tr { display: grid; grid-template-columns: repeat(auto-fill, minmax(6.5rem, 1fr)); border-bottom: .12rem solid var(--ink); }
  .wide th { grid-column: 1 / -1; border: 0; padding-bottom: 0; }
  .wide td { border: 0; text-align: start; padding: .3rem; font-size: 1rem; }
  .wide td[colspan] { grid-column: 1 / -1; }
  .wide td label { flex-wrap: wrap; }
  .wide td:not([colspan])::before { content: attr(data-head); display: block; font-size: .875rem; color: var(--soft); }
  .wide td.mute { background: var(--wash); }
  .wide td.mute > span { background: none; padding: 0; }
${page.days ? chosenDay(page.days) : ''}}
@media print {
  @page { size: ${cssSize(page.sheet, page.orientation)}; margin: ${BROWSER_MARGIN}mm; }
  :root { color-scheme: light; }
  * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  body { padding: 0; max-width: none; font-size: 11pt; }
  h1, h2, h3, h4 { break-after: avoid; }
  li, tr, figure, .callout { break-inside: avoid; }
  .columns { grid-template-columns: var(--columns); }
  .new-sheet { break-before: page; }
}
`;
