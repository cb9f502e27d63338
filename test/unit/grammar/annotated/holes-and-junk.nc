; SYNTAX TEST "source.nc-program" "holes are marked, and what is no word is coloured as none"
G1 <syncOn> X<offset> Q24
;  ^^^^^^^^ invalid.illegal.hole.nc-program
;           ^ - variable.other.axis.nc-program
;            ^^^^^^^^ invalid.illegal.hole.nc-program
;                     ^ variable.parameter.address.nc-program
X[1+<depth>]
;   ^^^^^^^ invalid.illegal.hole.nc-program
(text <syncOn>)
;     ^^^^^^^^ comment.block.parenthesis.nc-program - invalid.illegal.hole.nc-program
< > <1> <a b> <
; <-------------- - invalid.illegal.hole.nc-program
HELLO WORLD 5
; <------------- source.nc-program - variable.parameter.address.nc-program variable.parameter.arc.nc-program constant.numeric.nc-program
asim[0.5]
; <---- source.nc-program - support.function.nc-program variable.other.axis.nc-program support.type.spindle-speed.nc-program
12.5 +3 .5 = * G M X. X--3 G-1 S
; <-------------------------------- - constant.numeric.nc-program keyword.operator.assignment.nc-program keyword.operator.arithmetic.nc-program keyword.control.preparatory.nc-program keyword.other.miscellaneous.nc-program variable.other.axis.nc-program support.type.spindle-speed.nc-program
X1.2.3
;^^^ constant.numeric.nc-program
;   ^^ - constant.numeric.nc-program
SIN 30 AND 2
; <------------ - support.function.nc-program keyword.operator.wordlike.nc-program constant.numeric.nc-program
// prose
; <-- - keyword.control.block-skip.nc-program keyword.operator.arithmetic.nc-program
é X1 ſ5 К2
; <- - variable.other.axis.nc-program
; ^ variable.other.axis.nc-program
;    ^^ ^^ - support.type.spindle-speed.nc-program variable.parameter.arc.nc-program constant.numeric.nc-program
X ſin[30]
;  ^^ - support.function.nc-program
