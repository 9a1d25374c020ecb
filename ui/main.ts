import './app.css';
import { mount } from 'svelte';
import { config } from 'zod';
import App from './App.svelte';
import { opensBlind } from './hand/heel-shown.ts';
import { BrowserAccess } from './link/access.ts';
import { Link } from './link/link.svelte.ts';
import { keepScreenAwake } from './link/wake-lock.ts';

// The page's policy forbids code made from text, which checks would otherwise be compiled to.
config({ jitless: true });

const target = document.getElementById('screen');
if (target === null) throw new Error('the page has no element for the screen');

const address = new URL('screen', window.location.href);
address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';
address.search = '';
address.hash = '';

const access = new BrowserAccess(window.location, window.localStorage);
// A code that opened, or did not, must not stand where somebody may photograph or bookmark it.
if (access.invited)
  window.history.replaceState(null, '', window.location.pathname + window.location.search);

const link = new Link(address.href, {
  access,
  kept: window.localStorage,
  random: (bytes) => crypto.getRandomValues(new Uint8Array(bytes)),
  nowS: () => performance.now() / 1000,
  blind: opensBlind(window.location.hash),
});
let awake = false;
link.onPerson = ({ role }) => {
  if (awake || role !== 'architect') return;
  awake = true;
  void keepScreenAwake(navigator, document, (held) => {
    link.screenMaySleep = !held;
  });
};
link.start();
mount(App, { target, props: { link } });
