/**
 * The few lines that mark today in a dated sheet's list of days, and keep its ticks on the phone that made them. A night's work goes on past midnight:
 * until four it is the day before's. The page reads and ticks without them; nothing leaves the phone.
 * A tick is kept under the sheet's own key, by the place of its box and the words of its row: a box of another week, or of a row that has changed since,
 * is empty.
 */
export const TICKS_SCRIPT = `try {
  const now = new Date(Date.now() - 4 * 3600e3);
  const today = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
  document.querySelector('[data-day="' + today + '"]')?.setAttribute('aria-current', 'date');
  const key = document.documentElement.dataset.ticks;
  const boxes = [...document.querySelectorAll('input[type=checkbox]')];
  const name = (box, i) => i + ' ' + box.closest('tr, li').textContent;
  const kept = JSON.parse(localStorage.getItem(key) ?? '[]');
  boxes.forEach((box, i) => { box.checked = kept.includes(name(box, i)); });
  addEventListener('change', () => {
    try {
      localStorage.setItem(key, JSON.stringify(boxes.flatMap((box, i) => (box.checked ? [name(box, i)] : []))));
    } catch {}
  });
} catch {}`;

/** The script by its SHA-256, for the page's own rule of what may run in it: nothing else. */
export const TICKS_HASH = 'sha256-b7ArUpMBIhn6vxc8gd+7KOWf13M3+RwbFGcKeGli8p4=';
