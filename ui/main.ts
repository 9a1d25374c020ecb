import './app.css';
import { mount } from 'svelte';
import { config } from 'zod';
import App from './App.svelte';
import { Link } from './link/link.svelte.ts';
import { personFromAddress } from './link/person.ts';
import { keepScreenAwake } from './link/wake-lock.ts';

// The page's policy forbids code made from text, which checks would otherwise be compiled to.
config({ jitless: true });

const target = document.getElementById('screen');
if (target === null) throw new Error('the page has no element for the screen');

const address = new URL('screen', window.location.href);
address.protocol = address.protocol === 'https:' ? 'wss:' : 'ws:';
address.search = '';
address.hash = '';

const link = new Link(
  address.href,
  personFromAddress(window.location.search, window.localStorage),
  () => performance.now() / 1000,
);
link.start();
if (link.person.role === 'architect')
  void keepScreenAwake(navigator, document, (held) => {
    link.screenMaySleep = !held;
  });
mount(App, { target, props: { link } });
