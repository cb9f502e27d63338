; SYNTAX TEST "source.nc-program" "words, with and without spaces, in either case, numbers in every legal form"
G00X12.5Y-.5Z+3.M03
; <--- keyword.control.preparatory.nc-program - constant.numeric.nc-program
;  ^ variable.other.axis.nc-program
;   ^^^^ constant.numeric.nc-program
;       ^ variable.other.axis.nc-program
;        ^^^ constant.numeric.nc-program
;           ^ variable.other.axis.nc-program
;            ^^^ constant.numeric.nc-program
;               ^^^ keyword.other.miscellaneous.nc-program - keyword.control.preparatory.nc-program
g0x +0. 12 34y 7
; <-- keyword.control.preparatory.nc-program
; ^ variable.other.axis.nc-program
;   ^^^^^^^^^ constant.numeric.nc-program
;            ^ variable.other.axis.nc-program
;              ^ constant.numeric.nc-program
G 5 9 . 1 Z007
; <--------- keyword.control.preparatory.nc-program
;         ^ variable.other.axis.nc-program
;          ^^^ constant.numeric.nc-program
U1 V2 W-3 A4 B5 C6
; <- variable.other.axis.nc-program
; ^^ - variable.parameter.address.nc-program
;  ^  ^   ^  ^  ^ variable.other.axis.nc-program
;   ^  ^^  ^  ^  ^ constant.numeric.nc-program
I1 J-2 K.5 r7.01
; <- variable.parameter.arc.nc-program
;  ^   ^   ^ variable.parameter.arc.nc-program
;   ^^  ^^  ^^^^ constant.numeric.nc-program
S1200 F.12 T0101
; <- support.type.spindle-speed.nc-program
;^^^^ constant.numeric.nc-program
;     ^ support.type.feed.nc-program
;      ^^^ constant.numeric.nc-program
;          ^ support.type.tool.nc-program
;           ^^^^ constant.numeric.nc-program
D1 E2 H3 L4 P5 Q6
; <- variable.parameter.address.nc-program
;  ^  ^  ^  ^  ^ variable.parameter.address.nc-program
;   ^  ^  ^  ^  ^ constant.numeric.nc-program
X1e3
;^ constant.numeric.nc-program - variable.parameter.address.nc-program
; ^ variable.parameter.address.nc-program
;  ^ constant.numeric.nc-program
