/**
 * What runs in the page of all stores: search, filters, sorting. Rows are made a hundred at a time, as they come into sight. No text becomes markup.
 */
export const SCRIPT = String.raw`
'use strict';
const data = JSON.parse(document.getElementById('data').textContent);
const words = JSON.parse(document.getElementById('words').textContent);
const $ = (id) => document.getElementById(id);
const text = (n) => data.texts[n];
const plain = (s) => s.normalize('NFD').replace(/[\u0300-\u036f]/g, '').toLowerCase();
const make = (tag, content, traits) => {
  const e = document.createElement(tag);
  if (content !== undefined) e.textContent = content;
  for (const [name, value] of Object.entries(traits || {})) e.setAttribute(name, value);
  return e;
};
const stores = data.stores.map((s) => ({ ...s, search: plain([s.id, s.name, s.region, ...s.units.map(text)].join(' ')), codes: new Set(s.findings.map(([c]) => text(c))) }));
const counted = (values) => {
  const counts = new Map();
  for (const v of values) counts.set(v, (counts.get(v) || 0) + 1);
  return [...counts].sort(([a], [b]) => a.localeCompare(b));
};
const option = (select, value, label) => select.append(make('option', label, { value }));
for (const [region, n] of counted(stores.map((s) => s.region).filter(Boolean))) option($('region'), region, region + ' (' + n + ')');
option($('finding'), '*', words.any);
option($('finding'), '-', words.none);
for (const [code, n] of counted(stores.flatMap((s) => [...s.codes]))) option($('finding'), code, code.replace(/-/g, ' ') + ' (' + n + ')');
const worst = (s) => (s.findings.some(([c]) => text(c).startsWith('error')) ? 2 : s.findings.length > 0 ? 1 : 0);
const orders = {
  store: (a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1),
  region: (a, b) => a.region.localeCompare(b.region) || orders.store(a, b),
  findings: (a, b) => worst(b) - worst(a) || b.findings.length - a.findings.length || orders.store(a, b),
};
let by = 'store';
let down = false;
let shown = [];
let made = 0;
const row = (s) => {
  const tr = make('tr');
  const name = make('th', s.name, { scope: 'row' });
  name.append(make('small', s.id));
  const papers = make('td');
  for (const [base, called, ...files] of s.documents) {
    const line = make('div', text(called) + ' ');
    for (const file of files) {
      const link = make('a', text(file).replace('.', ' '), { href: encodeURI(s.id + '/' + text(base) + '.' + text(file)) });
      link.setAttribute('aria-label', text(called) + ' ' + s.name + ' ' + link.textContent);
      line.append(link, ' ');
    }
    papers.append(line);
  }
  if (s.documents.length === 0) papers.append(make('em', words['no-papers']));
  const told = make('td');
  for (const [code, says] of s.findings) told.append(make('div', text(says), { class: text(code).split(' ')[0], title: text(code) }));
  tr.append(name, make('td', s.region), papers, told);
  return tr;
};
const more = () => {
  const rows = document.createDocumentFragment();
  for (const s of shown.slice(made, made + 100)) rows.append(row(s));
  made = Math.min(shown.length, made + 100);
  $('rows').append(rows);
};
const show = () => {
  const asked = plain($('search').value.trim()).split(/\s+/).filter(Boolean);
  const region = $('region').value;
  const finding = $('finding').value;
  shown = stores.filter(
    (s) =>
      asked.every((word) => s.search.includes(word)) &&
      (region === '' || s.region === region) &&
      (finding === '' || (finding === '*' ? s.findings.length > 0 : finding === '-' ? s.findings.length === 0 : s.codes.has(finding))),
  );
  shown.sort(orders[by]);
  if (down) shown.reverse();
  $('rows').replaceChildren();
  made = 0;
  more();
  $('count').textContent = words.shown.replace('{shown}', shown.length).replace('{all}', stores.length);
  for (const button of document.querySelectorAll('thead button'))
    button.parentElement.setAttribute('aria-sort', button.dataset.by !== by ? 'none' : down ? 'descending' : 'ascending');
};
for (const id of ['search', 'region', 'finding']) $(id).addEventListener('input', show);
for (const button of document.querySelectorAll('thead button'))
  button.addEventListener('click', () => {
    down = by === button.dataset.by && !down;
    by = button.dataset.by;
    show();
  });
new IntersectionObserver((seen) => { if (seen.some((s) => s.isIntersecting) && made < shown.length) more(); }, { rootMargin: '600px' }).observe($('end'));
show();
`;
