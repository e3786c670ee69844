import '../fonts.css';
import '../colours.css';
import '../page.css';
import { mount } from 'svelte';
import { theme } from '../lib/theme.svelte';
import Chooser from './Chooser.svelte';

theme.start();

const place = document.getElementById('chooser');
if (!place) throw new Error('chooser.html has no element "chooser"');
mount(Chooser, { target: place });
