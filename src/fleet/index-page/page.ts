/**
 * out/index.html: every store with its papers, on one page that needs nothing else: it works from a file share and offline.
 */
import { escapeMarkup } from '../../print/svg.js';
import type { Words } from '../../say/words.js';
import type { IndexData } from './data.js';
import { SCRIPT } from './script.js';

const STYLE = `
:root{color-scheme:light dark}
body{margin:0;font:16px/1.45 system-ui,sans-serif;background:Canvas;color:CanvasText}
header,main{padding:0 1.2rem;max-width:90rem;margin:auto}
h1{font-size:1.4rem;margin:1rem 0 .6rem}
form{display:flex;flex-wrap:wrap;gap:.4rem 1.2rem;align-items:end;position:sticky;top:0;background:Canvas;padding:.5rem 0;border-bottom:1px solid GrayText}
label{display:block;font-size:.85rem}
input,select{font:inherit;padding:.3rem .4rem;max-width:20rem}
table{border-collapse:collapse;width:100%;margin:.5rem 0}
th,td{text-align:left;vertical-align:top;padding:.45rem .8rem .45rem 0;border-bottom:1px solid #8886;overflow-wrap:anywhere}
thead th{white-space:nowrap}
th:nth-child(1){min-width:11rem}td:nth-child(2){min-width:7rem}td:nth-child(3){min-width:16rem}td:nth-child(4){min-width:12rem;max-width:34rem}
thead button{font:inherit;font-weight:700;background:none;border:0;padding:.2rem 0;color:inherit;cursor:pointer;text-decoration:underline}
[aria-sort=ascending] button::after{content:" \\2191"}[aria-sort=descending] button::after{content:" \\2193"}
small{display:block;font-weight:400}
a{padding:.1rem .25rem;white-space:nowrap}
.error::before{content:"\\2716 "}.warning::before{content:"\\26A0 "}
.draft{border:2px solid;padding:.5rem .8rem;font-weight:700}
@media print{form{display:none}}
@media screen and (max-width:52rem){
form{position:static}
table,tbody,tr,th,td{display:block}
thead{display:contents}thead tr{display:flex;gap:1.2rem}thead th:nth-child(3),td:empty{display:none}
th,td,th:nth-child(n),td:nth-child(n){min-width:0;max-width:none;padding:.2rem 0;border:0}
tbody tr{padding:.5rem 0;border-top:1px solid #8886}td div{padding:.25rem 0}
}
`;

/** JSON that can stand in a script element: nothing in it ends the element. */
const inScript = (value: unknown): string =>
  JSON.stringify(value)
    .replace(/</g, '\\u003c')
    .replace(/\u2028/g, '\\u2028')
    .replace(/\u2029/g, '\\u2029');

const DATA = '<script type="application/json" id="data">';
const END = '</script>';

/** The data of a page that was made here. */
export const dataIn = (page: string): IndexData => {
  const from = page.indexOf(DATA) + DATA.length;
  return JSON.parse(page.slice(from, page.indexOf(END, from))) as IndexData;
};

const NAMES = ['any', 'none', 'no-papers', 'shown'] as const;

export interface IndexPage {
  readonly chain: string;
  readonly approved: boolean;
  readonly data: IndexData;
}

export const indexPage = ({ chain, approved, data }: IndexPage, words: Words): string => {
  const word = (name: string): string => words.get(`index.${name}`) ?? name;
  const said = (name: string): string => escapeMarkup(word(name));
  const title = escapeMarkup(word('title').replace('{chain}', chain));
  const head = (by: string, label: string): string =>
    `<th scope="col" aria-sort="none"><button type="button" data-by="${by}">${said(label)}</button></th>`;
  const left =
    data.left.length === 0
      ? []
      : [
          `<details><summary>${said('left')} (${data.left.length})</summary><ul>${data.left.map((path) => `<li>${escapeMarkup(path)}</li>`).join('')}</ul></details>`,
        ];
  return [
    '<!doctype html>',
    `<html lang="${escapeMarkup(words.lang)}">`,
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'">`,
    `<title>${title}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    `<header><h1>${title}</h1>`,
    ...(approved ? [] : [`<p class="draft">${said('draft')}</p>`]),
    `<noscript><p>${said('offline')}</p></noscript></header>`,
    '<main>',
    '<form role="search" onsubmit="return false">',
    `<div><label for="search">${said('search')}</label><input id="search" type="search" autocomplete="off" placeholder="${said('search-hint')}"></div>`,
    `<div><label for="region">${said('region')}</label><select id="region"><option value="">${said('every')}</option></select></div>`,
    `<div><label for="finding">${said('finding')}</label><select id="finding"><option value="">${said('every')}</option></select></div>`,
    '<output id="count" for="search region finding" aria-live="polite"></output>',
    '</form>',
    `<table><thead><tr>${head('store', 'store')}${head('region', 'region')}<th scope="col">${said('papers')}</th>${head('findings', 'findings')}</tr></thead><tbody id="rows"></tbody></table>`,
    '<div id="end"></div>',
    ...left,
    '</main>',
    `<script type="application/json" id="words">${inScript(Object.fromEntries(NAMES.map((name) => [name, word(name)])))}</script>`,
    `${DATA}${inScript(data)}${END}`,
    `<script>${SCRIPT}</script>`,
    '</body>',
    '</html>',
    '',
  ].join('\n');
};
