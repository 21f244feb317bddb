#!/bin/sh
# Makes the sample sessions with the program's own commands, all of them
# invented:  sh tests/make-sample-sessions.sh target/debug/jawtrue FOLDER
# Session names (ids) are made up anew each time.
set -eu
jawtrue=$1
folder=$2
shop="Elm Row shop (invented)"

# Its thread was looked at; no command asks for it.
new() {
    file=$folder/$1.jawtrue; shift
    "$jawtrue" new "$file" --invented --who "R. Alder (invented)" "$@"
    sed -i 's/^        arms: \[$/        left_hand_thread: false,\n        arms: [/' "$file"
}
record() { laced=$1; shift; "$jawtrue" record "$file" --laced "$laced" --readings "$@"; rm -f "$file.backup"; }
# Opening margin of the arm at a position; no command asks for it.
margin() { sed -i "/(position: \"$1\",/s|)),\$|), opening_margin: \"$2\"),|" "$file"; }

new pinched-arm --unit in --length 48 --arms 6,18,30,42 --nuts -4,-4,-4,-4 --nut-limits -12..0 \
    --name "Press 2, $shop" --when 2026-11-25 --belt "two-ply, 42″ wide" --hooks "medium wire" \
    --gauge "Digital caliper" --notes "Arm B is pinched: the splice is thin there and nowhere else, so the hooks cut into the belt there."
record "2026-11-25 09:40" "0.2500 0.2505, 0.2445 0.2440, 0.2510 0.2505, 0.2525 0.2525"

new taper --unit in --length 52 --arms 5,19,33,47 --nuts -3,-3,-3,-3 --nut-limits -12..0 \
    --name "Press 1, $shop" --when 2026-10-06 --belt "two-ply, 48″ wide" --hooks "medium wire" \
    --gauge "Digital caliper" --notes "Thick at the right end. Opening the left end a little at a time brought it true in two more pieces."
record "2026-10-06 08:15" "0.2480 0.2475, 0.2510 0.2510, 0.2545 0.2540, 0.2575 0.2580"
record "2026-10-06 08:50" "0.2530 0.2530, 0.2545 0.2540, 0.2560 0.2555, 0.2580 0.2575" --turned +2,+1,0,0
record "2026-10-06 09:20" "0.2560 0.2565, 0.2555 0.2560, 0.2565 0.2560, 0.2580 0.2580" --turned +1,0,0,0 \
    --note "As left; pins back in."

new nut-too-far-in --unit in --length 34 --arms 6,17,28 --nuts -5,-9,-5 --nut-limits -14..0 \
    --name "Press 3, $shop" --when 2026-09-14 --belt "light belt, 30″ wide" --hooks "small wire" \
    --gauge "Digital caliper" --notes "Somebody ran the nut at B in too far: the splice is crushed there, and the jaw hardly opens enough to take the hook retainer out. Opening margins were measured at every arm."
margin "6 in" "0.024 in"
margin "17 in" "0.006 in"
margin "28 in" "0.022 in"
record "2026-09-14 13:05" "0.1895 0.1890, 0.1790 0.1795, 0.1885 0.1885"

new bow --unit in --length 70 --arms 5,17,29,41,53,65 --stations 23,47 --nuts -4,-4,-4,-4,-4,-4 --nut-limits -12..0 \
    --name "Press 5, $shop" --when 2026-11-02 --belt "three-ply, 60″ wide" --hooks "heavy wire" \
    --gauge "Digital caliper" --notes "A wide press that is thin in the middle; measured between the arms as well. Opening the middle arms is better than closing the ends."
record "2026-11-02 10:30" "0.3155 0.3160, 0.3120 0.3125, 0.3095 0.3095, 0.3080 0.3080, 0.3080 0.3080, 0.3090 0.3095, 0.3120 0.3125, 0.3165 0.3160"

# Five nuts that answer alone and alike: the plainest press to show it on.
response=$folder/alone.csv
printf '%s\n' 0.004,0,0,0,0 0,0.004,0,0,0 0,0,0.004,0,0 0,0,0,0.004,0 0,0,0,0,0.004 >"$response"
new between-notches --response "$response" --unit in --length 60 --arms 6,18,30,42,54 --nuts -4,-4,-4,-4,-4 --gauge-step 0.0001 \
    --name "Press 4, $shop" --when 2026-11-11 --belt "two-ply, 54″ wide" --hooks "medium wire" \
    --gauge "Micrometer" --notes "Every arm is off by part of a notch, so no whole notches reach the tolerance. Get as near as they go, then look at belt, hooks and wear."
rm "$response"
record "2026-11-11 07:55" "0.2500, 0.2548, 0.2516, 0.2564, 0.2532"

new inside --unit in --length 44 --arms 5,16,28,39 --nuts -4,-3,-4,-4 --nut-limits -12..0 \
    --name "Press 6, $shop" --when 2026-11-18 --belt "two-ply, 36″ wide" --hooks "medium wire" \
    --gauge "Digital caliper" --notes "True as found. The best turn is no turn: leave the nuts, put the pins back, file the record."
record "2026-11-18 15:20" "0.2495 0.2500, 0.2505 0.2505, 0.2500 0.2500, 0.2510 0.2510"

new metric --unit mm --length 1400 --arms 150,515,885,1250 --nuts -6,-6,-6,-6 --nut-limits -16..0 \
    --name "Press 7, $shop" --when 2026-11-23 --belt "three-ply, 1200 mm wide" --hooks "medium wire" \
    --gauge "Digital caliper" --notes "Measured in millimeters, judged by 0.1 mm. Exactly at the limit passes, but only just: the next piece may not."
record "2026-11-23 09:10" "6.31 6.32, 6.48 6.47, 6.50 6.50, 6.29 6.30"
record "2026-11-23 09:45" "6.40 6.41, 6.49 6.48, 6.51 6.50, 6.44 6.45" --turned +1,0,0,+2
