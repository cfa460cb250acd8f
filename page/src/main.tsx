import { render } from 'preact';
import { App } from './App';
import { startReading } from './state';
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
if ('serviceWorker' in navigator && import.meta.env.PROD) void navigator.serviceWorker.register('./sw.js').catch(() => undefined);
