import { render } from 'preact';
import { App } from './App';
import { start } from './state';
import './style/page.css';

const place = document.getElementById('page');
if (place) {
  place.textContent = '';
  render(<App />, place);
}
void start();
if ('serviceWorker' in navigator && import.meta.env.PROD) void navigator.serviceWorker.register('./sw.js').catch(() => undefined);
