import { effect } from '@preact/signals';
import { render } from 'preact';
import { App } from './App';
import { check, startReading } from './state';
import { openTexts } from './texts';
import { followHistory } from './view';
import { remember } from './remember';
import './style/page.css';

const place = document.getElementById('page');
if (place) {
  place.textContent = '';
  render(<App />, place);
}
remember();
void openTexts().then(() => {
  followHistory();
  startReading();
});
/* What is kept for a time without a network is fetched when the first answer stands, and not before it. */
if ('serviceWorker' in navigator && import.meta.env.PROD) {
  const NO_ANSWER_MS = 5000;
  let asked = false;
  const keep = (): void => {
    if (!asked) void navigator.serviceWorker.register('./sw.js').catch(() => undefined);
    asked = true;
  };
  effect(() => {
    if (check.value) setTimeout(keep, 0);
  });
  setTimeout(keep, NO_ANSWER_MS);
}
