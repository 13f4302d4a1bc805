/**
 * The print room: a page in, a file out. Everything else in this folder is how.
 */
export { makeFaces, textWidth, type Face, type FaceName, type Faces } from './faces.js';
export { printHtml, type PrintedHtml } from './html.js';
export { printPdf, type PrintedPdf } from './print-pdf.js';
export { drawingToSvg } from './svg.js';
