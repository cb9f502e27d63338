; SYNTAX TEST "source.nc-program" "parameters, assignments, bracketed expressions, functions and operators"
#1=2.0 ##1 = 0.375
; <- punctuation.definition.variable.nc-program
;^ variable.other.readwrite.parameter.nc-program
; ^ keyword.operator.assignment.nc-program
;  ^^^ constant.numeric.nc-program
;      ^^ punctuation.definition.variable.nc-program
;        ^ variable.other.readwrite.parameter.nc-program
;          ^ keyword.operator.assignment.nc-program
;            ^^^^^ constant.numeric.nc-program
#3=#4 #5=[1] x#3
;  ^ punctuation.definition.variable.nc-program
;   ^ variable.other.readwrite.parameter.nc-program
;       ^ keyword.operator.assignment.nc-program
;        ^ punctuation.section.brackets.begin.nc-program
;            ^ variable.other.axis.nc-program
;             ^ punctuation.definition.variable.nc-program
;              ^ variable.other.readwrite.parameter.nc-program
#[1+2]=-5 #fix[2]=4
; <- punctuation.definition.variable.nc-program
;^ punctuation.section.brackets.begin.nc-program
;    ^ punctuation.section.brackets.end.nc-program
;     ^ keyword.operator.assignment.nc-program
;      ^^ constant.numeric.nc-program
;          ^^^ support.function.nc-program
;                ^ keyword.operator.assignment.nc-program
;                 ^ constant.numeric.nc-program
X[1 --3.5] Y[2**#1]
; <- variable.other.axis.nc-program
;^ punctuation.section.brackets.begin.nc-program
; ^ constant.numeric.nc-program
;   ^^ keyword.operator.arithmetic.nc-program
;     ^^^ constant.numeric.nc-program
;        ^ punctuation.section.brackets.end.nc-program
;          ^ variable.other.axis.nc-program
;             ^^ keyword.operator.arithmetic.nc-program
;               ^ punctuation.definition.variable.nc-program
;                ^ variable.other.readwrite.parameter.nc-program
X[1OR 2 xor 3 MOD 4 and 5]
;  ^^ keyword.operator.wordlike.nc-program
;       ^^^ keyword.operator.wordlike.nc-program
;             ^^^ keyword.operator.wordlike.nc-program
;                   ^^^ keyword.operator.wordlike.nc-program
S[#1*2] G[2*5] M[3] I[1] P[2]
; <- support.type.spindle-speed.nc-program
;       ^ keyword.control.preparatory.nc-program
;              ^ keyword.other.miscellaneous.nc-program
;                   ^ variable.parameter.arc.nc-program
;                        ^ variable.parameter.address.nc-program
xacos[[0.5]] Ysqrt [ 16 ] zABS[-1]
; <- variable.other.axis.nc-program
;^^^^ support.function.nc-program
;           ^ - support.function.nc-program
;             ^^^^ support.function.nc-program
;                         ^ variable.other.axis.nc-program
;                          ^^^ support.function.nc-program
X atan[1.7]/[1/2]
; ^^^^ support.function.nc-program
;          ^ punctuation.separator.arguments.nc-program - keyword.operator.arithmetic.nc-program
;             ^ keyword.operator.arithmetic.nc-program
X[[1+2 (a comment is none of it) * 3
;       ^^^^^^^^^ comment.block.parenthesis.nc-program - constant.numeric.nc-program
;                                ^ keyword.operator.arithmetic.nc-program
X1 + 2
; <- variable.other.axis.nc-program
;  ^^^ - keyword.operator.arithmetic.nc-program constant.numeric.nc-program
